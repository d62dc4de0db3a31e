import { describe, expect, it } from 'vitest';
import { demoStories } from '#lib/demo/index.ts';
import { trailOf } from '../../src/routes/demo/trails.ts';

describe('the questions of the demo', () => {
  it('each lead to a page', () => {
    expect(demoStories.filter((story) => trailOf(story) === null)).toEqual([]);
  });

  it('lead to the series, station or supplier that is asked for', () => {
    const [drift] = demoStories;
    if (drift === undefined) throw new Error('no stories');
    expect(trailOf(drift)?.options).toEqual({ of: 'tail', name: drift.where.tail });
    const step = demoStories.find(({ number }) => number === 3);
    if (step === undefined) throw new Error('no story 3');
    expect(trailOf(step)?.filter).toEqual({ names: { station: [step.where.station] } });
  });
});
