/**
 * A picture's scale written into it, so that a program that prints it keeps the size. Sources: PNG specification, third edition, 5.3 (chunk layout),
 * 11.3.4.3 (pHYs), annex D (the checksum).
 */

const polynomial = 0xedb88320;

const checksum = (bytes: Uint8Array): number => {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = (crc >>> 1) ^ (crc & 1 ? polynomial : 0);
  }
  return (crc ^ 0xffffffff) >>> 0;
};

/** Signature, 8 bytes, and the header chunk: length, name, 13 bytes, checksum. */
const afterHeader = 8 + 4 + 4 + 13 + 4;

/**
 * The same picture with its scale said, both ways alike.
 *
 * @param dots to the millimetre; written as whole dots to the metre
 */
export const withScale = (png: Uint8Array, dots: number): Uint8Array => {
  const chunk = new Uint8Array(4 + 4 + 9 + 4);
  const view = new DataView(chunk.buffer);
  view.setUint32(0, 9);
  chunk.set(
    [...'pHYs'].map((letter) => letter.charCodeAt(0)),
    4,
  );
  const perMetre = Math.round(dots * 1000);
  view.setUint32(8, perMetre);
  view.setUint32(12, perMetre);
  // The unit is the metre.
  view.setUint8(16, 1);
  view.setUint32(17, checksum(chunk.subarray(4, 17)));
  const out = new Uint8Array(png.length + chunk.length);
  out.set(png.subarray(0, afterHeader));
  out.set(chunk, afterHeader);
  out.set(png.subarray(afterHeader), afterHeader + chunk.length);
  return out;
};
