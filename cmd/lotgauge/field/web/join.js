// A program whose code lies sorted into streams, put together again: see
// split.go, which sorts it and names the streams.

// joined is the program of which the streams are.
function joined(sorted) {
  const view = new DataView(sorted.buffer, sorted.byteOffset, sorted.byteLength);
  const count = view.getUint32(0, true), before = view.getUint32(4, true), size = view.getUint32(8, true);
  const at = [];
  let place = 12 + 4 * count;
  for (let i = 0; i < count; i++) {
    at.push(place);
    place += view.getUint32(12 + 4 * i, true);
  }
  if (place !== sorted.length) throw new Error("a damaged page");
  const to = new Uint8Array(view.getUint32(12, true) + size);
  to.set(sorted.subarray(at[0], at[0] + before));
  to.set(sorted.subarray(at[0] + before, at[1]), before + size);
  joinCode(sorted, at, to, before, before + size);
  return to;
}

// What comes behind an operation: the stream of its one number, or one of these.
const nothing = 255, access = 254, table = 253, indirect = 252, four = 251, eight = 250, further = 249;

// operands are by operation.
const operands = (() => {
  const kinds = new Uint8Array(256).fill(nothing);
  const all = { 4: [2, 3, 4], 5: [0x0c, 0x0d], 7: [0x10], 9: [0x20, 0x21, 0x22], 10: [0x23, 0x24], 13: [0x41], 14: [0x42], 16: [0x3f, 0x40] };
  for (const [stream, ops] of Object.entries(all)) for (const op of ops) kinds[op] = Number(stream);
  kinds.fill(access, 0x28, 0x3f);
  kinds[0x0e] = table;
  kinds[0x11] = indirect;
  kinds[0x43] = four;
  kinds[0x44] = eight;
  kinds[0xfc] = further;
  return kinds;
})();

// joinCode writes the code to its place, n up to end.
function joinCode(from, at, to, n, end) {
  const ops = 3, floats = 15, more = 16;
  let value = 0; // of the number moved last
  const number = (stream) => {
    let p = at[stream], c = 0, shift = 0;
    value = 0;
    do {
      c = from[p++];
      to[n++] = c;
      value |= (c & 127) << shift;
      shift += 7;
    } while (c > 127);
    at[stream] = p;
  };
  const bytes = (stream, many) => {
    while (many--) to[n++] = from[at[stream]++];
  };
  number(1); // of functions
  while (n < end) {
    number(1);
    const last = n + value;
    number(2);
    for (let groups = value; groups > 0; groups--) {
      number(2);
      number(2);
    }
    while (n < last) {
      const op = from[at[ops]++], kind = operands[op];
      to[n++] = op;
      if (kind === nothing) continue;
      if (kind < further) {
        number(kind);
      } else if (kind === access) {
        number(11);
        number(12);
      } else if (kind === table) {
        number(6);
        for (let i = value; i >= 0; i--) number(6);
      } else if (kind === indirect) {
        number(8);
        number(8);
      } else if (kind === further) {
        number(more);
        if (value === 10) bytes(more, 2);
        else if (value === 11) bytes(more, 1);
      } else {
        bytes(floats, kind === four ? 4 : 8);
      }
    }
  }
}
