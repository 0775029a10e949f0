/** A column as spreadsheets letter it: A, B, ... Z, AA. @param index counted from 0 */
export function columnLetters(index: number): string {
  const rest = Math.floor(index / 26) - 1;
  return (rest >= 0 ? columnLetters(rest) : "") + String.fromCharCode(65 + (index % 26));
}
