/** This window, as it was loaded now. */
export const THIS_WINDOW = crypto.randomUUID();
