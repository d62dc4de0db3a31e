/** First characters that make a spreadsheet run a cell: OWASP ASVS 5.0 1.2.10, the OWASP page and CWE-1236 together. */
const runsAsFormula = new Set([
  '=',
  '+',
  '-',
  '@',
  '\t',
  '\r',
  '\n',
  '\0',
  '\uFF1D',
  '\uFF0B',
  '\uFF0D',
  '\uFF20'
]);
/** Blanks that a spreadsheet may skip before it looks at the first character. */
const skippedBlanks = new Set([' ', '\u00A0', '\uFEFF', '\u200B']);

function startsAsFormula(text: string): boolean {
  let at = 0;
  while (at < text.length && skippedBlanks.has(text.charAt(at))) at++;
  return at < text.length && runsAsFormula.has(text.charAt(at));
}

/**
 * Text made harmless for spreadsheets by one leading apostrophe. Text that starts with an apostrophe gets one too,
 * so that taking one away on import always gives the text back.
 */
export function neutralised(text: string): string {
  return text.startsWith("'") || startsAsFormula(text) ? `'${text}` : text;
}

/** Signs, digits and marks between them: nothing that a spreadsheet would run. */
const plainNumber = /^\s*[-+\u2212]?\d[\d.,'\u2019 \u00a0\u202f\u2009]*$/;

/** A cell of a source as it is, unless a spreadsheet would run it: then with one leading apostrophe. */
export function harmless(text: string): string {
  return startsAsFormula(text) && !plainNumber.test(text) ? `'${text}` : text;
}

/** A text cell: neutralised, quoted, quotes doubled (RFC 4180). An empty text stays an empty cell. */
export function textCell(text: string): string {
  return text === '' ? '' : `"${neutralised(text).replaceAll('"', '""')}"`;
}
