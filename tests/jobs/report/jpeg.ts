const segment = (marker: number, body: readonly number[]) => [
  0xff,
  marker,
  (body.length + 2) >> 8,
  (body.length + 2) & 0xff,
  ...body,
];

/** A Huffman table of one code, "0", for the value 0. */
const oneCode = (table: number) => [table, 1, ...Array<number>(15).fill(0), 0];

/** Bytes of comment that one segment holds. */
const LONGEST = 65_000;

/**
 * A JPEG that every decoder reads: evenly grey. Its blocks say, in two bits each, "as the one before" and "nothing else".
 *
 * @param least bytes of the file; it is filled up with comments
 */
export function greyJpeg(width: number, height: number, least = 0): Uint8Array<ArrayBuffer> {
  const both = (value: number) => [value >> 8, value & 0xff];
  const head = [
    ...[0xff, 0xd8],
    ...segment(0xdb, [0, ...Array<number>(64).fill(1)]),
    ...segment(0xc0, [8, ...both(height), ...both(width), 1, 1, 0x11, 0]),
    ...segment(0xc4, [...oneCode(0x00), ...oneCode(0x10)]),
  ];
  const bits = 2 * Math.ceil(width / 8) * Math.ceil(height / 8);
  const scan = Array<number>(Math.ceil(bits / 8)).fill(0);
  // What is left of the last byte is ones.
  if (bits % 8 > 0) scan[scan.length - 1] = 0xff >> (bits % 8);
  const tail = [...segment(0xda, [1, 1, 0, 0, 63, 0]), ...scan, 0xff, 0xd9];
  const parts = [Uint8Array.from(head)];
  for (let left = least - head.length - tail.length; left > 0; left -= LONGEST) {
    const length = Math.min(left, LONGEST);
    parts.push(Uint8Array.from(segment(0xfe, Array<number>(length).fill(left & 0x7f))));
  }
  parts.push(Uint8Array.from(tail));
  return Uint8Array.from(Buffer.concat(parts));
}
