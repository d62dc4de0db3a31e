import type { RecordFilter } from '#lib/data/ledger/index.ts';
import { fieldsOfKind, isFieldName, type NameFieldName } from '#lib/data/record/index.ts';
import { markWords, qualityWords, verdictWords } from '#lib/data/words/index.ts';

export const filterNames: readonly NameFieldName[] = fieldsOfKind('name');

/** One removable part of a filter. */
export type FilterPart = NameFieldName | 'period' | 'verdicts' | 'qualities' | 'marks' | 'failed';

/** The parts of a filter that ask for something, in the order of the sentence. */
export function activeParts(filter: RecordFilter): FilterPart[] {
  const parts: FilterPart[] = filterNames.filter((name) => (filter.names?.[name] ?? []).length > 0);
  if (filter.fromDay !== undefined || filter.untilDay !== undefined) parts.push('period');
  for (const part of ['verdicts', 'qualities', 'marks', 'failed'] as const) {
    if ((filter[part] ?? []).length > 0) parts.push(part);
  }
  return parts;
}

/** The filter without one of its parts. */
export function withoutPart(filter: RecordFilter, part: FilterPart): RecordFilter {
  const { fromDay, untilDay, ...rest } = filter;
  if (part === 'period') return rest;
  const period = {
    ...(fromDay === undefined ? {} : { fromDay }),
    ...(untilDay === undefined ? {} : { untilDay })
  };
  const parts = Object.entries(rest).filter(([name]) => name !== part);
  const kept: RecordFilter = { ...Object.fromEntries(parts), ...period };
  if (!isFieldName(part)) return kept;
  const names = Object.entries(rest.names ?? {}).filter(([name]) => name !== part);
  return { ...kept, names: Object.fromEntries(names) };
}

/** The filter with the values of a name set; none takes the name out. */
export function withName(filter: RecordFilter, name: NameFieldName, values: readonly string[]): RecordFilter {
  const without = withoutPart(filter, name);
  return values.length === 0 ? without : { ...without, names: { ...without.names, [name]: values } };
}

/** The filter with one more code in a list of verdicts, qualities, marks or failed checks. */
export function withCode(
  filter: RecordFilter,
  part: 'verdicts' | 'qualities' | 'marks' | 'failed',
  code: string
): RecordFilter {
  const before: readonly string[] = filter[part] ?? [];
  return before.includes(code) ? filter : { ...filter, [part]: [...before, code] };
}

/** Values of one key are joined by a comma; a comma inside a value is doubled as `~c`, a tilde as `~~`. */
function joined(values: readonly string[]): string {
  return values.map((value) => value.replaceAll('~', '~~').replaceAll(',', '~c')).join(',');
}

function parted(text: string): string[] {
  return text
    .split(',')
    .map((value) => value.replaceAll(/~(.)/g, (_all, mark: string) => (mark === 'c' ? ',' : mark)));
}

/** Writes a filter into URL parameters, in a fixed order, defaults left out. */
export function writeFilter(filter: RecordFilter, parameters: URLSearchParams): void {
  for (const name of filterNames) {
    const values = filter.names?.[name] ?? [];
    if (values.length > 0) parameters.set(name, joined(values));
  }
  if (filter.fromDay !== undefined) parameters.set('from', filter.fromDay);
  if (filter.untilDay !== undefined) parameters.set('until', filter.untilDay);
  for (const part of ['verdicts', 'qualities', 'marks', 'failed'] as const) {
    const values = filter[part] ?? [];
    if (values.length > 0) parameters.set(part, joined(values));
  }
}

function isDay(text: string): boolean {
  return /^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(Date.parse(text));
}

function knownOnly(words: Record<string, string>, text: string, unknown: string[]): string[] {
  return parted(text).filter((code) => {
    if (Object.hasOwn(words, code)) return true;
    unknown.push(code);
    return false;
  });
}

/** Reads a filter out of URL parameters. What is not understood is left out and named in `unknown`. */
export function readFilter(parameters: URLSearchParams): { filter: RecordFilter; unknown: string[] } {
  const unknown: string[] = [];
  let filter: RecordFilter = {};
  for (const name of filterNames) {
    const text = parameters.get(name);
    if (text !== null) filter = withName(filter, name, parted(text));
  }
  for (const [key, member] of [
    ['from', 'fromDay'],
    ['until', 'untilDay']
  ] as const) {
    const day = parameters.get(key);
    if (day === null) continue;
    if (isDay(day)) filter = { ...filter, [member]: day };
    else unknown.push(day);
  }
  const lists: Record<string, Record<string, string>> = {
    verdicts: verdictWords,
    qualities: qualityWords,
    marks: markWords,
    failed: Object.fromEntries(fieldsOfKind('check').map((name) => [name, name]))
  };
  for (const [part, words] of Object.entries(lists)) {
    const text = parameters.get(part);
    const codes = text === null ? [] : knownOnly(words, text, unknown);
    if (codes.length > 0) filter = { ...filter, [part]: codes };
  }
  return { filter, unknown };
}
