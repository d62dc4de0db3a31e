import { exportFormatColumn, fieldNamed, splitKey } from '#lib/data/record/index.ts';
import type { Wanted } from './evidence/gather.ts';
import type { FileHead } from './head.ts';
import { recognise, type ColumnRole, type Recognition } from './header/recognise.ts';
import { chosenColumns } from './settle/fields.ts';
import { freeClocks, planTimes, type TimePlans } from './settle/time-plan.ts';

/** True for a records export of this program: it says so in its last column. */
export function isOwnExport({ header, sights }: FileHead): boolean {
  const last = header.headers.length - 1;
  const content = sights[last]?.content;
  const isMarked = header.headers[last] === exportFormatColumn;
  return isMarked && content !== undefined && content.numbers === content.filled;
}

/** What the evidence pass has to look for. */
export interface Looks {
  readonly wanted: readonly Wanted[];
  /** Cells that no record can do without. */
  readonly needed: readonly number[];
}

const nothing: Wanted = { number: false, time: false, words: false };
const everything: Wanted = { number: true, time: true, words: true };

/** Nothing is looked for in a file that says itself how it is to be read. */
export function noLooks({ sights }: FileHead): Looks {
  return { wanted: sights.map(() => nothing), needed: [] };
}

/** What to look for in which column: what its field needs, or everything where the field itself is open. */
export function looksOf(head: FileHead, answers: ReadonlyMap<string, string>): Looks {
  const chosen = chosenColumns(answers);
  const recognition = recognise(head.sights, chosen);
  const times = planTimes(recognition.roles, new Set(chosen.keys()));
  const open = openColumns(head, recognition, times);
  const clocks = clocksBeside(head, recognition, times);
  const wanted = head.sights.map((_, column): Wanted => {
    const role = recognition.roles.find((known) => known.column === column);
    if (role !== undefined) return wantedFor(role);
    if (recognition.unitColumns.has(column)) return { ...nothing, words: true };
    if (open.has(column)) return everything;
    return clocks.has(column) ? { ...nothing, time: true } : nothing;
  });
  const time = times.plans.find(({ key }) => key === 'time');
  const named = recognition.roles.filter(({ key }) => key === 'station' || key === 'tail');
  return {
    wanted,
    needed: [...(time === undefined ? [] : [time.column]), ...named.map(({ column }) => column)]
  };
}

function wantedFor(role: ColumnRole): Wanted {
  const { kind } = fieldNamed(splitKey(role.key).name);
  return { number: kind === 'number', time: kind === 'time', words: kind === 'check' || kind === 'choice' };
}

/** Columns that a question offers: those in doubt, and all free ones where a needed field has none. */
function openColumns({ sights, header }: FileHead, recognition: Recognition, times: TimePlans): Set<number> {
  const { roles, doubts } = recognition;
  const hasAll =
    header.index >= 0 &&
    times.plans.some(({ key }) => key === 'time') &&
    (['station', 'tail'] as const).every((needed) => roles.some(({ key }) => key === needed));
  if (!hasAll) return new Set(sights.keys());
  return new Set(doubts.flatMap((doubt) => (doubt.kind === 'field' ? doubt.columns : [doubt.column])));
}

/** Columns of clocks that may belong to a date that stands alone. */
function clocksBeside({ sights }: FileHead, recognition: Recognition, times: TimePlans): Set<number> {
  const isDateAlone = times.plans.some(
    ({ column, clockColumn }) => clockColumn === null && sights[column]?.content.instants === 0
  );
  return new Set(isDateAlone ? freeClocks(sights, recognition) : []);
}
