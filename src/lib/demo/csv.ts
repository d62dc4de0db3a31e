/** Lines of comma-separated text as RFC 4180 has it: CRLF, quotes where they are needed. Null is an empty cell. */
export function csvText(lines: readonly (readonly (string | number | null)[])[]): string {
  return lines.map((cells) => cells.map(cell).join(',') + '\r\n').join('');
}

function cell(value: string | number | null): string {
  if (value === null) return '';
  if (typeof value === 'number') return String(value);
  return /[",\r\n]/.test(value) ? `"${value.replaceAll('"', '""')}"` : value;
}
