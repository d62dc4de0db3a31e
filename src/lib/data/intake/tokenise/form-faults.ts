import type { FormFault, FormFaultCode } from '../tokeniser.ts';

const gravestFirst: readonly FormFaultCode[] = [
  'recordTooLong',
  'quoteUnclosed',
  'textAfterQuote',
  'endsInMidRecord',
  'invalidBytes',
  'nulBytes',
  'controlBytes'
];

/** A file of nothing but faults must not fill the memory with them; each record's own is still told. */
const mostKept = 1000;

/** The faults of a file as they are met, record by record. */
export class FormFaults {
  readonly kept: FormFault[] = [];

  /** Takes a record's faults and gives the gravest of them, null where there is none. */
  addRecord(faults: readonly FormFault[]): FormFault | null {
    if (faults.length === 0) return null;
    const sorted = faults.toSorted((a, b) => gravestFirst.indexOf(a.code) - gravestFirst.indexOf(b.code));
    this.kept.push(...sorted.slice(0, mostKept - this.kept.length));
    return sorted[0] ?? null;
  }
}

/** The fault that a code unit is by itself, null where it may stand in a table. */
export function unitFault(unit: number): FormFaultCode | null {
  if (unit >= 0x20 && unit < 0x7f) return null;
  if (unit === 0xfffd) return 'invalidBytes';
  if (unit === 0) return 'nulBytes';
  if (unit >= 0xa0 || unit === 0x09 || unit === 0x0a || unit === 0x0d) return null;
  return 'controlBytes';
}

/** Where the next code unit is that may not stand in a table, `to` where there is none. */
export function nextFaultyUnit(text: string, from: number, to: number): number {
  for (let at = from; at < to; at++) {
    const unit = text.charCodeAt(at);
    if ((unit < 0x20 || unit >= 0x7f) && unitFault(unit) !== null) return at;
  }
  return to;
}

/** The faults of the characters of a record that starts on `line`, one of each kind. */
export function characterFaults(text: string, from: number, to: number, line: number): FormFault[] {
  const faults: FormFault[] = [];
  let here = line;
  for (let at = from; at < to; at++) {
    const unit = text.charCodeAt(at);
    if (unit === 0x0a) here++;
    const code = unitFault(unit);
    if (code !== null && !faults.some((fault) => fault.code === code)) faults.push({ code, line: here });
  }
  return faults;
}
