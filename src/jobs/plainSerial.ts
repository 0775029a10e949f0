/** A serial or a name without the blanks, dashes and capitals that a tag or a list may or may not have. */
export const plainSerial = (serial: string) => serial.replace(/[\s\-_.]/g, "").toLowerCase();
