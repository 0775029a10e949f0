/** Brands of the ISO file format (ISO/IEC 23008-12) by which a HEIC picture tells itself, at its fifth byte. */
const heicBrands = ["heic", "heix", "hevc", "hevx", "heim", "heis", "mif1", "msf1"];

/**
 * Why a file cannot be shown as a picture here, and the way out, in words.
 *
 * @param name  of the file
 * @param bytes all of it or its beginning, at least 12 bytes where it has them
 */
export function noPicture(name: string, bytes: Uint8Array): string {
  if (bytes.length === 0) {
    return `${name} is empty: it was not copied whole. Copy it again, or take the photograph with the camera here.`;
  }
  const word = (from: number) => String.fromCharCode(...bytes.subarray(from, from + 4));
  if (word(4) === "ftyp" && heicBrands.includes(word(8))) {
    return `${name} is a HEIC picture, which this browser cannot show. Take the photograph with the camera here, or save it as JPEG where it was taken and choose that.`;
  }
  return `${name} is not a picture that this tablet can show, or it is damaged. Take the photograph with the camera here, or choose a JPEG or PNG.`;
}
