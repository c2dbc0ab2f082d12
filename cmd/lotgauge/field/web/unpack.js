"use strict";
// How bytes lie in the page: see pack.go, which writes them.

// bytesBy is the byte that a character stands for, 256 for those that stand for
// none: windows-1252 has characters of its own for the bytes 0x80 to
// 0x9f, but not for all of them.
const bytesBy = (() => {
  const by = new Uint16Array(0x2123).fill(256);
  for (let i = 0; i < 256; i++) by[i] = i;
  const own = "\u20ac\u0081\u201a\u0192\u201e\u2026\u2020\u2021\u02c6\u2030\u0160\u2039\u0152\u008d\u017d\u008f" +
    "\u0090\u2018\u2019\u201c\u201d\u2022\u2013\u2014\u02dc\u2122\u0161\u203a\u0153\u009d\u017e\u0178";
  own.split("").forEach((c, i) => (by[c.charCodeAt(0)] = 0x80 + i));
  return by;
})();

// unpack is the bytes that lie in a text of the page.
function unpack(text) {
  const bytes = new Uint8Array(text.length);
  let n = 0, lift = 0;
  for (let i = 0; i < text.length; i++) {
    const c = bytesBy[text.charCodeAt(i)];
    if (!(c < 256)) throw new Error("the page was changed on its way to this phone");
    if (c === 61) {
      lift = 64;
      continue;
    }
    bytes[n++] = c - lift - 42;
    lift = 0;
  }
  return bytes.subarray(0, n);
}

// unzipped is a stream of what gzipped bytes hold, or the bytes themselves where
// the browser has no such stream.
function unzipped(bytes) {
  if (typeof DecompressionStream === "undefined") return inflated(bytes);
  return new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
}

// bytesOf is what gzipped bytes hold.
async function bytesOf(bytes) {
  return new Uint8Array(await new Response(unzipped(bytes)).arrayBuffer());
}
