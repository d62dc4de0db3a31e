import {
  byMonth,
  byName,
  bySize,
  byWeek,
  select,
  type Grouping,
  type GroupKey
} from '#lib/data/ledger/index.ts';
import type { Ledger, RecordFilter, Selection } from '#lib/data/ledger/index.ts';
import type { Settings } from '#lib/data/settings/index.ts';

/** What every question is asked of. Selections and groupings are kept while the ledger stays as it is. */
export interface QuestionContext {
  readonly ledger: Ledger;
  readonly settings: Settings;
  readonly select: (filter: RecordFilter) => Selection;
  readonly group: (by: GroupKey) => Grouping;
}

/** Selections kept: the pages ask several questions about one filter. */
const keptSelections = 8;

export function createContext(ledger: Ledger, settings: Settings): QuestionContext {
  const selections = new Map<string, Selection>();
  const groupings = new Map<GroupKey, Grouping>();
  return {
    ledger,
    settings,
    select(filter) {
      const key = JSON.stringify(filter);
      const selection = selections.get(key) ?? select(ledger, filter);
      // Put last again: the first is the one not asked for longest, and all records are asked for in every step.
      selections.delete(key);
      selections.set(key, selection);
      const [oldest] = selections.keys();
      if (selections.size > keptSelections && oldest !== undefined) selections.delete(oldest);
      return selection;
    },
    group(by) {
      const known = groupings.get(by);
      if (known !== undefined) return known;
      const grouping = groupingOf(ledger, by);
      groupings.set(by, grouping);
      return grouping;
    }
  };
}

function groupingOf(ledger: Ledger, by: GroupKey): Grouping {
  if (by === 'month') return byMonth(ledger.source.columns.valuesOf('time'));
  if (by === 'week') return byWeek(ledger.source.columns.valuesOf('time'));
  if (by === 'size') return bySize(ledger.computed.refuellingMassKg);
  return byName(ledger.source.columns.code(by));
}
