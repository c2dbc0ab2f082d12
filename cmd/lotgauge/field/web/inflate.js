// For browsers without DecompressionStream: gzip (RFC 1952) and deflate (RFC
// 1951). Codes are walked bit by bit, by how many there are of each length
// (section 3.2.2).

const lengthBase = [3, 4, 5, 6, 7, 8, 9, 10, 11, 13, 15, 17, 19, 23, 27, 31, 35, 43, 51, 59, 67, 83, 99, 115, 131, 163, 195, 227, 258];
const lengthBits = [0, 0, 0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 2, 2, 2, 2, 3, 3, 3, 3, 4, 4, 4, 4, 5, 5, 5, 5, 0];
const distanceBase = [1, 2, 3, 4, 5, 7, 9, 13, 17, 25, 33, 49, 65, 97, 129, 193, 257, 385, 513, 769, 1025, 1537, 2049, 3073, 4097, 6145, 8193, 12289, 16385, 24577];
const distanceBits = [0, 0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 6, 7, 7, 8, 8, 9, 9, 10, 10, 11, 11, 12, 12, 13, 13];
const codeOrder = [16, 17, 18, 0, 8, 7, 9, 6, 10, 5, 11, 4, 12, 3, 13, 2, 14, 1, 15];

// inflated is what gzipped bytes hold.
function inflated(bytes) {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (view.getUint16(0) !== 0x1f8b || bytes[3] !== 0) throw new Error("not gzipped as the page's data are");
  const size = view.getUint32(bytes.length - 4, true);
  const s = { from: bytes, at: 10, bits: 0, count: 0, to: new Uint8Array(size), n: 0 };
  for (let last = 0; !last;) {
    last = take(s, 1);
    const kind = take(s, 2);
    if (kind === 0) stored(s);
    else if (kind === 1) coded(s, ...fixedCodes());
    else if (kind === 2) coded(s, ...readCodes(s));
    else throw new Error("a damaged page");
  }
  if (s.n !== size || checksum(s.to) !== view.getUint32(bytes.length - 8, true)) throw new Error("a damaged page");
  return s.to;
}

// take takes some bits, the lowest first.
function take(s, need) {
  while (s.count < need) {
    if (s.at >= s.from.length) throw new Error("a damaged page");
    s.bits |= s.from[s.at++] << s.count;
    s.count += 8;
  }
  const value = s.bits & ((1 << need) - 1);
  s.bits >>>= need;
  s.count -= need;
  return value;
}

function stored(s) {
  s.bits = s.count = 0;
  const length = s.from[s.at] | (s.from[s.at + 1] << 8);
  s.to.set(s.from.subarray(s.at + 4, s.at + 4 + length), s.n);
  s.at += 4 + length;
  s.n += length;
}

// codes counts the codes of each length and puts the symbols in their order.
function codes(lengths) {
  const count = new Uint16Array(16), offset = new Uint16Array(16), symbol = new Uint16Array(lengths.length);
  for (const l of lengths) count[l]++;
  for (let l = 1; l < 15; l++) offset[l + 1] = offset[l] + count[l];
  lengths.forEach((l, i) => { if (l) symbol[offset[l]++] = i; });
  return { count, symbol };
}

function decode(s, c) {
  let code = 0, first = 0, index = 0;
  for (let l = 1; l < 16; l++) {
    if (s.count === 0) {
      if (s.at >= s.from.length) break;
      s.bits = s.from[s.at++];
      s.count = 8;
    }
    code |= s.bits & 1;
    s.bits >>>= 1;
    s.count--;
    if (code - c.count[l] < first) return c.symbol[index + code - first];
    index += c.count[l];
    first = (first + c.count[l]) << 1;
    code <<= 1;
  }
  throw new Error("a damaged page");
}

function fixedCodes() {
  const lengths = [];
  for (let i = 0; i < 288; i++) lengths.push(i < 144 ? 8 : i < 256 ? 9 : i < 280 ? 7 : 8);
  return [codes(lengths), codes(new Array(30).fill(5))];
}

function readCodes(s) {
  const literals = take(s, 5) + 257, distances = take(s, 5) + 1, number = take(s, 4) + 4;
  const short = new Array(19).fill(0);
  for (let i = 0; i < number; i++) short[codeOrder[i]] = take(s, 3);
  const by = codes(short), lengths = [];
  while (lengths.length < literals + distances) {
    const symbol = decode(s, by);
    if (symbol < 16) {
      lengths.push(symbol);
      continue;
    }
    const again = symbol === 16 ? lengths[lengths.length - 1] : 0;
    let times = symbol === 16 ? 3 + take(s, 2) : symbol === 17 ? 3 + take(s, 3) : 11 + take(s, 7);
    while (times--) lengths.push(again);
  }
  return [codes(lengths.slice(0, literals)), codes(lengths.slice(literals))];
}

function coded(s, literals, distances) {
  for (;;) {
    let symbol = decode(s, literals);
    if (symbol === 256) return;
    if (symbol < 256) {
      s.to[s.n++] = symbol;
      continue;
    }
    symbol -= 257;
    let length = lengthBase[symbol] + take(s, lengthBits[symbol]);
    symbol = decode(s, distances);
    const back = distanceBase[symbol] + take(s, distanceBits[symbol]);
    for (; length--; s.n++) s.to[s.n] = s.to[s.n - back];
  }
}

// checksum is CRC-32 (RFC 1952, section 8).
function checksum(bytes) {
  const table = new Uint32Array(256);
  for (let i = 0; i < 256; i++) {
    let c = i;
    for (let k = 0; k < 8; k++) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
    table[i] = c;
  }
  let crc = 0xffffffff;
  for (let i = 0; i < bytes.length; i++) crc = table[(crc ^ bytes[i]) & 255] ^ (crc >>> 8);
  return ~crc >>> 0;
}
