/**
 * What makes two files the same layout: delimiter, header texts and the texts of the row of units. It is the texts
 * themselves as JSON, so two headers are one layout only if they are the same to the letter.
 */
export function headerFingerprint(
  delimiter: string,
  headers: readonly string[],
  unitsRow: readonly string[] | null
): string {
  return JSON.stringify([delimiter, headers, unitsRow]);
}
