import type { ColumnSet } from '#lib/data/columns/index.ts';
import {
  inspect,
  layoutFrom,
  readRecords,
  type Account,
  type Answer,
  type Inspection,
  type Layout,
  type LookElsewhere,
  type ReadAhead,
  type RememberedLayout
} from '#lib/data/intake/index.ts';
import type { StationEntry } from '#lib/data/settings/index.ts';

/** A used record as plain values, by column key; times as ISO text, missing ones left out. */
export interface UsedRow {
  readonly line: number;
  readonly values: Readonly<Record<string, string | number>>;
}

export interface IntakeRun {
  readonly inspection: Inspection;
  /** Questions that hold the file back while nothing is answered. */
  readonly asks: readonly string[];
  readonly layout: Layout | null;
  readonly account: Account | null;
  readonly stopped: 'no' | 'cancelled' | 'contradiction' | null;
  readonly rows: readonly UsedRow[];
}

export interface Given {
  readonly answers?: readonly Answer[];
  readonly stations?: readonly StationEntry[];
  readonly remembered?: RememberedLayout | null;
  readonly batchRows?: number;
  /** Whether the file is looked at elsewhere while it is read ahead here. */
  readonly inTwo?: boolean;
  /** Whether values are read while the file is looked at, as the site does; true where left out. */
  readonly readsAhead?: boolean;
}

/** Takes a file in as the site does: looks at it, answers, looks again where an answer asks for it, reads. */
export async function runIntake(blob: Blob, given: Given = {}): Promise<IntakeRun> {
  const source = { name: 'file.csv', blob };
  const answers = given.answers ?? [];
  const remembered = given.remembered ?? null;
  let ahead: ReadAhead | null = null;
  const options = {
    remembered: () => Promise.resolve(remembered),
    stations: given.stations ?? [],
    ...(given.inTwo === true ? { elsewhere: lookElsewhere } : {}),
    ...(given.readsAhead === false ? {} : { onAhead: (read: ReadAhead) => (ahead = read) })
  };
  const inspection = await inspect(source, options);
  const open = layoutFrom(inspection, []);
  const asks = 'unanswered' in open ? open.unanswered : [];
  let layout = layoutFrom(inspection, answers);
  if ('unanswered' in layout && layout.inspectAgain) {
    ahead = null;
    layout = layoutFrom(await inspect(source, { ...options, answers }), answers);
  }
  if (inspection.problem !== null || 'unanswered' in layout) {
    return { inspection, asks, layout: null, account: null, stopped: null, rows: [] };
  }
  const rows: UsedRow[] = [];
  const { account, stopped } = await readRecords(source, layout, {
    onBatch: (batch) => rows.push(...rowsOf(batch)),
    ahead,
    ...(given.batchRows === undefined ? {} : { batchRows: given.batchRows })
  });
  return { inspection, asks, layout, account, stopped, rows };
}

/** Stands for another thread. */
const lookElsewhere: LookElsewhere = (source, options) =>
  inspect(source, { ...options, remembered: () => Promise.resolve(null) });

/** A text as a file in UTF-8. */
export function textFile(text: string): Blob {
  return new Blob([text]);
}

function rowsOf(batch: ColumnSet): UsedRow[] {
  const keys = batch.keys().filter((key) => !key.startsWith('#'));
  return Array.from({ length: batch.rowCount }, (_, row) => {
    const entries = keys.flatMap((key): [string, string | number][] => {
      const value = valueOf(batch, key, row);
      return value === null ? [] : [[key, value]];
    });
    return { line: batch.number('#line').at(row), values: Object.fromEntries(entries) };
  });
}

function valueOf(batch: ColumnSet, key: string, row: number): string | number | null {
  const column = batch.get(key);
  if (column === undefined) return null;
  if (column.kind === 'number') {
    const value = column.at(row);
    if (Number.isNaN(value)) return null;
    return key === 'time' || key === 'startTime' ? new Date(value).toISOString() : value;
  }
  const text = column.kind === 'code' ? column.text(row) : column.at(row);
  return text === '' ? null : text;
}
