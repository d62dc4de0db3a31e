import { CarefulReader } from '../tokenise/careful-reader.ts';

export interface DelimiterFit {
  readonly delimiter: string;
  /** The cell count that most records have when they are split here. */
  readonly cells: number;
  /** Records of that count, out of the records seen; blank lines are not counted. */
  readonly agree: number;
  readonly records: number;
}

export interface DelimiterReport extends DelimiterFit {
  /** By a `sep=` line, by the evidence of the records, or for want of any delimiter that fits. */
  readonly how: 'sepLine' | 'evidence' | 'oneColumn';
  /** True where the file's first line is `sep=` and a delimiter, not a record of the table. */
  readonly hasSepLine: boolean;
  /** Other delimiters that fit about as well: where there are any, a person has to say. */
  readonly alternatives: readonly DelimiterFit[];
}

const candidates = [',', ';', '\t', '|'];
const mostRecords = 200;

/** How near to the best another delimiter must come to be asked about. */
const closeSecond = 0.8;

/**
 * The delimiter of a table by its first records, quotes heeded. One fits where most records have the same count of
 * two or more cells; of those that fit, the one wins that covers most records and whose cells hold fewest of the other
 * delimiters, commas between digits aside. `head` is the start of the file's text; `isWhole` where it is all of it.
 */
export function detectDelimiter(head: string, isWhole: boolean): DelimiterReport {
  const text = wholeLines(head.replaceAll('\r\n', '\n').replaceAll('\r', '\n'), isWhole);
  const named = sepLine(text);
  const start = named === null ? 0 : named.end;
  const fits = candidates
    .map((delimiter) => fit(text, start, delimiter))
    .filter((each) => each.cells > 1)
    .sort((a, b) => b.score - a.score);
  const hasSepLine = named !== null;
  if (named !== null) {
    const own = fit(text, start, named.delimiter);
    // A `sep=` line that leaves one column where another delimiter fits is not believed without asking.
    const others = own.cells > 1 ? [] : fits;
    return { ...plain(own), how: 'sepLine', hasSepLine, alternatives: others.map(plain) };
  }
  const [best, ...others] = fits;
  if (best === undefined) {
    return { ...plain(fit(text, start, ',')), how: 'oneColumn', hasSepLine, alternatives: [] };
  }
  const close = others.filter((other) => other.score >= best.score * closeSecond);
  return { ...plain(best), how: 'evidence', hasSepLine, alternatives: close.map(plain) };
}

interface ScoredFit extends DelimiterFit {
  readonly score: number;
}

function plain({ delimiter, cells, agree, records }: ScoredFit): DelimiterFit {
  return { delimiter, cells, agree, records };
}

function fit(text: string, start: number, delimiter: string): ScoredFit {
  const records = splitRecords(text, start, delimiter);
  const times = new Map<number, number>();
  for (const record of records) times.set(record.length, (times.get(record.length) ?? 0) + 1);
  let cells = 1;
  let agree = times.get(1) ?? 0;
  const least = records.length > 1 ? 2 : 1;
  let most = 0;
  for (const [count, seen] of times) {
    if (count < 2 || seen < least || seen < most || (seen === most && count < cells)) continue;
    cells = count;
    most = seen;
  }
  if (most > 0) agree = most;
  const fitting = records.filter((record) => record.length === cells);
  const body = fitting.length > 1 ? fitting.slice(1) : fitting;
  const all = body.flat();
  const clean = all.filter((cell) => isClean(cell, delimiter)).length;
  return {
    delimiter,
    cells,
    agree,
    records: records.length,
    score: all.length === 0 ? 0 : (agree / records.length) * (clean / all.length)
  };
}

/** The first records as cells, blank lines left out. */
function splitRecords(text: string, start: number, delimiter: string): string[][] {
  const reader = new CarefulReader(delimiter);
  const records: string[][] = [];
  let at = start;
  let usual = 0;
  while (at < text.length && records.length < mostRecords) {
    reader.read(text, at, true, usual);
    const cells = Array.from({ length: reader.scan.count }, (_, cell) => reader.cell(text, cell));
    if (cells.length > 1 || cells[0]?.trim() !== '') records.push(cells);
    if (cells.length > 1) usual = cells.length;
    at = reader.end;
  }
  return records;
}

function isClean(cell: string, delimiter: string): boolean {
  for (let i = 0; i < cell.length; i++) {
    const char = cell.charAt(i);
    if (char === delimiter || !candidates.includes(char)) continue;
    const isDecimal = char === ',' && isDigit(cell.charCodeAt(i - 1)) && isDigit(cell.charCodeAt(i + 1));
    if (!isDecimal) return false;
  }
  return true;
}

function isDigit(unit: number): boolean {
  return unit >= 0x30 && unit <= 0x39;
}

function wholeLines(text: string, isWhole: boolean): string {
  const end = text.lastIndexOf('\n') + 1;
  return isWhole || end === 0 ? text : text.slice(0, end);
}

function sepLine(text: string): { delimiter: string; end: number } | null {
  const lineEnd = text.indexOf('\n');
  const line = text.slice(0, lineEnd < 0 ? text.length : lineEnd).replaceAll('"', '');
  const delimiter = line.charAt(4);
  if (line.length !== 5 || line.slice(0, 4).toLowerCase() !== 'sep=' || delimiter > '\x7f') return null;
  return { delimiter, end: lineEnd < 0 ? text.length : lineEnd + 1 };
}
