import type { RecordFilter } from '#lib/data/ledger/index.ts';
import { fieldNamed, isFieldName } from '#lib/data/record/index.ts';
import { markWords, qualityWords, verdictWords } from '#lib/data/words/index.ts';
import { activeParts, type FilterPart } from '#lib/state/filter.ts';
import { groupName } from './rates.ts';
import { periodWords } from './words.ts';

/** A part of a filter in words: "Station", "JARV or JBEL". */
export interface PartWords {
  readonly part: FilterPart;
  readonly label: string;
  readonly value: string;
}

/** What a part of a filter is called. */
export function partLabel(part: FilterPart): string {
  if (isFieldName(part)) return fieldNamed(part).label;
  return {
    period: 'Period',
    verdicts: 'Verdict',
    qualities: 'Quality',
    marks: 'Marked',
    failed: 'Failed check'
  }[part];
}

function valueOf(filter: RecordFilter, part: FilterPart): string {
  if (part === 'period') return periodWords(filter.fromDay, filter.untilDay);
  if (part === 'verdicts') return (filter.verdicts ?? []).map((code) => verdictWords[code]).join(' or ');
  if (part === 'qualities') return (filter.qualities ?? []).map((code) => qualityWords[code]).join(' or ');
  if (part === 'marks') return (filter.marks ?? []).map((code) => markWords[code]).join(' or ');
  if (part === 'failed') return (filter.failed ?? []).map((name) => fieldNamed(name).label).join(' or ');
  return (filter.names?.[part] ?? []).map(groupName).join(' or ');
}

/** The parts of a filter that ask for something, in words. */
export function filterWords(filter: RecordFilter): PartWords[] {
  return activeParts(filter).map((part) => ({ part, label: partLabel(part), value: valueOf(filter, part) }));
}
