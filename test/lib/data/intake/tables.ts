import fc from 'fast-check';

/** A record as a table generator knows it, before it is written in any notation. */
export interface PlainRecord {
  readonly ticket: string;
  readonly timeMs: number;
  readonly station: string;
  readonly tail: string;
  readonly volumeTenths: number;
  readonly densityTenths: number;
}

const firstMs = Date.UTC(2020, 0, 1);
const minutesInTenYears = 10 * 365 * 24 * 60;

export const record: fc.Arbitrary<PlainRecord> = fc.record({
  ticket: fc.stringMatching(/^[A-Z0-9]{3,8}$/),
  timeMs: fc.nat(minutesInTenYears).map((minutes) => firstMs + minutes * 60_000),
  station: fc.constantFrom('JARV', 'JBEL', 'JCOD', 'JDUM'),
  tail: fc.constantFrom('Q7-KEA', 'Q7-KEB', 'Q7-LOA', 'Q7-TUA'),
  volumeTenths: fc.integer({ min: 1, max: 999_999 }),
  densityTenths: fc.integer({ min: 7500, max: 8500 })
});

export const records = fc.array(record, { minLength: 1, maxLength: 12 });

/** How numbers and dates are written in a file. */
export interface Notation {
  readonly delimiter: string;
  readonly decimal: '.' | ',';
  readonly group: string;
  readonly order: 'dmy' | 'mdy' | 'ymd';
}

export const notation: fc.Arbitrary<Notation> = fc
  .record({
    delimiter: fc.constantFrom(',', ';', '\t', '|'),
    decimal: fc.constantFrom('.' as const, ',' as const),
    group: fc.constantFrom('', '.', ',', ' ', '\u00a0', '\u202f', "'", '\u2019'),
    order: fc.constantFrom('dmy' as const, 'mdy' as const, 'ymd' as const)
  })
  .filter(({ decimal, group }) => decimal !== group);

export const isoNotation: Notation = { delimiter: ',', decimal: '.', group: '', order: 'ymd' };

function grouped(digits: string, group: string): string {
  return group === '' ? digits : digits.replace(/\B(?=(\d{3})+$)/g, group);
}

/** A number of tenths in a notation. */
export function tenths(value: number, { decimal, group }: Notation): string {
  const whole = grouped(String(Math.floor(value / 10)), group);
  return value % 10 === 0 ? whole : `${whole}${decimal}${value % 10}`;
}

export function dateText(timeMs: number, order: Notation['order']): string {
  const [year = '', month = '', day = ''] = new Date(timeMs).toISOString().slice(0, 10).split('-');
  if (order === 'ymd') return `${year}-${month}-${day}`;
  return order === 'dmy' ? `${day}/${month}/${year}` : `${month}/${day}/${year}`;
}

export function clockText(timeMs: number): string {
  return new Date(timeMs).toISOString().slice(11, 16);
}

function cellOf(text: string, delimiter: string): string {
  return text.includes(delimiter) ? `"${text}"` : text;
}

export const tableHeader = ['Ticket', 'End time (UTC)', 'Station', 'Tail', 'Volume (L)', 'Density (kg/m3)'];

/** The lines of a table, its header first. */
export function tableLines(rows: readonly PlainRecord[], notation: Notation): string[] {
  const lines = rows.map((row) => [
    row.ticket,
    `${dateText(row.timeMs, notation.order)} ${clockText(row.timeMs)}`,
    row.station,
    row.tail,
    tenths(row.volumeTenths, notation),
    tenths(row.densityTenths, notation)
  ]);
  return [tableHeader, ...lines].map((cells) =>
    cells.map((cell) => cellOf(cell, notation.delimiter)).join(notation.delimiter)
  );
}

/** The values that a record is read to. */
export function valuesOf(row: PlainRecord) {
  return {
    ticket: row.ticket,
    time: new Date(row.timeMs).toISOString(),
    station: row.station,
    tail: row.tail,
    volume: row.volumeTenths / 10,
    densityObserved: row.densityTenths / 10,
    densityMethod: 'densitometer'
  };
}
