import { setClock, setYmd, type TimeParts } from './parts.ts';

/** Digits at `at`, -1 where one of them is none. */
function digitsAt(text: string, at: number, count: number): number {
  let value = 0;
  for (let i = at; i < at + count; i++) {
    const digit = text.charCodeAt(i) - 48;
    if (!(digit >= 0 && digit <= 9)) return -1;
    value = value * 10 + digit;
  }
  return value;
}

/** The notation most programs write, `2024-03-04T10:00[:00][Z]`, without the walk that others need. */
export function scanIso(text: string, parts: TimeParts): boolean {
  let end = text.length;
  const isUtc = text.charCodeAt(end - 1) === 90;
  if (isUtc) end--;
  if (end !== 16 && end !== 19) return false;
  const divider = text.charCodeAt(10);
  if (text.charCodeAt(4) !== 45 || text.charCodeAt(7) !== 45 || (divider !== 84 && divider !== 32))
    return false;
  if (text.charCodeAt(13) !== 58 || (end === 19 && text.charCodeAt(16) !== 58)) return false;
  const year = digitsAt(text, 0, 4);
  const month = digitsAt(text, 5, 2);
  const day = digitsAt(text, 8, 2);
  const second = end === 19 ? digitsAt(text, 17, 2) : 0;
  if (year < 0 || month < 0 || day < 0) return false;
  if (!setClock(parts, digitsAt(text, 11, 2), digitsAt(text, 14, 2), second)) return false;
  if (isUtc) parts.offsetMinutes = 0;
  parts.form = setYmd(parts, year, month, day);
  return true;
}
