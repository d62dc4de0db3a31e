/** Characters that show nothing and so make two identifiers look alike. */
const invisible = /[\u00ad\u200b-\u200f\u2028-\u202e\u2060-\u2064\u2066-\u2069\ufeff]/g;
const dashes = /[-\u2010-\u2015\u2212\ufe58\ufe63\uff0d]/g;

/**
 * A key that is the same for spellings that a person takes for one: compatible forms, case, kinds of dash, blanks and
 * invisible characters do not count. For offering merges only; identifiers themselves stay as typed.
 */
export function lookAlikeKey(text: string): string {
  return text.normalize('NFKC').replace(invisible, '').replace(dashes, '').replace(/\s+/g, '').toLowerCase();
}
