/** A serial, a batch or a name without the dashes, blanks and capitals that a tag may or may not have. */
export const plainSerial = (serial: string) => serial.replace(/[\s\-_.]/g, "").toLowerCase();
