import { expect, it } from 'vitest';
import { poissonExact } from '#lib/core/statistics/index.ts';
import { answer } from '#lib/data/questions/index.ts';
import { demoContext } from '../lib/data/questions/demo-world.ts';

/** Fixed before the first run. */
const seeds = [11, 22, 33, 44, 55, 66, 77, 88, 99, 110];

it('names about as many gauges and meters as its stated budget where nothing is wrong', async () => {
  let budget = 0;
  let named = 0;
  let watched = 0;
  for (const seed of seeds) {
    const context = await demoContext({ seed, faults: false });
    for (const subject of ['tail', 'vehicle'] as const) {
      const drift = answer(context, 'drift', { filter: {}, subject });
      if (!drift.estimable) throw new Error(`seed ${seed}: ${subject} not estimable`);
      const alarms = drift.series.filter(({ alarm }) => alarm !== '');
      budget += drift.falseAlarms;
      named += alarms.length;
      watched += drift.watchedSeries;
      console.log(
        `seed ${seed} ${subject}: ${alarms.length} named of ${drift.watchedSeries}, budget ${drift.falseAlarms.toFixed(2)}; watch list ${drift.series.filter(({ watched: on }) => on).length}`
      );
    }
  }
  const interval = poissonExact(named, 1, 0.95);
  console.log(
    `named ${named} of ${watched} series, 95 % interval ${interval.lower.toFixed(1)} to ${interval.upper.toFixed(1)}; stated budget ${budget.toFixed(1)}`
  );
  expect(interval.lower).toBeLessThanOrEqual(budget);
  expect(interval.upper).toBeGreaterThanOrEqual(budget);
});
