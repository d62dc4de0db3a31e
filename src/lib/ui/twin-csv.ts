import type { Column, Twin } from '#lib/charts/twin.ts';

/** First characters that a spreadsheet may run as a formula (OWASP, CSV injection), after blanks that it skips. */
const RISKY = /^[\s\u00a0\u200b\ufeff]*[=+\-@\t\r\n\0\uff1d\uff0b\uff0d\uff20]|^'/;

/**
 * A twin as CSV (RFC 4180, CRLF): one header with units, numbers as plain decimals, text quoted. A text cell that a
 * spreadsheet could run, or that starts with an apostrophe, gets one leading apostrophe.
 *
 * @returns the whole file as text; every row of the twin is in it, however many the page shows
 */
export function twinCsv(twin: Twin): string {
  const header = twin.columns.map((column) => quoted(guarded(headerText(column))));
  const lines = twin.rows.map((row) =>
    row.cells.map((cell, index) => fieldText(cell.text, twin.columns[index])).join(',')
  );
  return [header.join(','), ...lines, ''].join('\r\n');
}

/** The header words of a column with its unit in brackets. */
export function headerText(column: Column): string {
  return column.unit === undefined ? column.label : `${column.label} (${column.unit})`;
}

function fieldText(text: string, column: Column | undefined): string {
  if (column?.kind === 'number') {
    const plain = text
      .replaceAll('\u2212', '-')
      .replaceAll(/[\u2009\u00a0]/g, '')
      .replace(/^\+/, '');
    if (/^-?\d+(\.\d+)?$/.test(plain)) return plain;
  }
  return quoted(guarded(text));
}

function guarded(text: string): string {
  return RISKY.test(text) ? `'${text}` : text;
}

function quoted(text: string): string {
  return `"${text.replaceAll('"', '""')}"`;
}
