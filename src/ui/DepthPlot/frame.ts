/** Pixels kept free round the field, for the larger of the two text sizes. */
export const TOP = 62;
export const LEFT = 68;
export const FOOT = 38;
