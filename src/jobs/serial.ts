/** A serial, a batch or a name without the dashes, blanks and capitals that a tag may or may not have. */
export const plainSerial = (serial: string) => serial.replace(/[\s\-_.]/g, "").toLowerCase();

/** The name of a well in the same way, but for a mark between two figures: wells 1-11 and 11-1 are two wells. */
export const plainWell = (name: string) =>
  plainSerial(name.replace(/(?<=\d)[\s\-_.]+(?=\d)/g, "/"));

/** A serial as it was read on location: in the record's letters where it is the same one, beside the record's where not. */
export function serialInWords(read: string, onRecord: string | undefined): string {
  if (onRecord === undefined) return read;
  return plainSerial(read) === plainSerial(onRecord)
    ? onRecord
    : `${read}; on record is ${onRecord}`;
}
