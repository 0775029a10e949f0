/**
 * What photographs of a string may take up. They travel in every pack with the string, as text; apart from the
 * schemas, so that a screen knows the limits without loading those.
 */

/** of one string */
export const mostPhotographs = 6;

/** Characters of a JPEG in base64, some 525 kB. */
export const longestJpeg = 700_000;
