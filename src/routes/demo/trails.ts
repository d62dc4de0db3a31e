import type { RecordFilter } from '#lib/data/ledger/index.ts';
import type { DemoStory } from '#lib/data/workspace/index.ts';
import type { PagePath } from '#lib/state/address.svelte.ts';

/** The way from a question of the demo to the page that answers it. */
export interface Trail {
  readonly path: PagePath;
  readonly filter: RecordFilter;
  readonly options: Readonly<Record<string, string>>;
  /** What to look at there. */
  readonly look: string;
}

type Way = Omit<Trail, 'filter'> & { readonly narrow: readonly ('station' | 'tail' | 'supplier')[] };

const way = (
  path: PagePath,
  look: string,
  narrow: Way['narrow'] = [],
  options: Trail['options'] = {}
): Way => ({ path, look, narrow, options });

/** By the number of the story. */
const ways: ReadonlyMap<number, Way> = new Map([
  [1, way('/trend/', 'Its weekly means, and where their average leaves its limits.', [], { of: 'tail' })],
  [2, way('/trend/', 'Its weekly means before and after the event mark.', [], { of: 'vehicle' })],
  [
    3,
    way('/density/', 'The months, one after the other; then the discrepancy.', ['station'], { by: 'month' })
  ],
  [4, way('/density/', 'Density against temperature on hot days.', ['station', 'supplier'])],
  [5, way('/density/', 'The share of identical values.', [], { by: 'station' })],
  [
    6,
    way('/samples/', 'Failures, and the time between them.', ['station'], { check: 'waterTest', by: 'month' })
  ],
  [7, way('/records/', 'Open a wild record: its sheet says what would make it fit.', ['station'])],
  [8, way('/aircraft/', 'The plain rate, the typical refuelling of each, then like for like.')],
  [9, way('/stations/', 'The interval beside the rate, and n.')],
  [10, way('/stations/', 'The mean in kilograms, type by type.', ['station'])],
  [11, way('/aircraft/', 'The discrepancy by fuel level.', ['tail'])],
  [12, way('/records/', 'Arrival figures equal to a departure figure before.', ['station'])],
  [13, way('/aircraft-vehicle/', 'The two that stand in a block of their own.')],
  [14, way('/trend/', 'The scatter before and after the gauge job.', [], { of: 'tail' })],
  [15, way('/samples/', 'Coverage, beside the failure rate.', ['station'], { by: 'month' })],
  [16, way('/files/', 'The balance of each file, and what was asked.')]
]);

/** The trail of a story; null for one without. */
export function trailOf({ number, where }: DemoStory): Trail | null {
  const found = ways.get(number);
  if (found === undefined) return null;
  const { path, look, narrow, options } = found;
  const names = Object.fromEntries(
    narrow.flatMap((name) => (where[name] === undefined ? [] : [[name, [where[name]]]]))
  );
  const series = options['of'] === 'vehicle' ? where.vehicle : where.tail;
  return {
    path,
    look,
    filter: narrow.length === 0 ? {} : { names },
    options: options['of'] === undefined || series === undefined ? options : { ...options, name: series }
  };
}
