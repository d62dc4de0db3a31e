import { describe, expect, it } from 'vitest';
import { drive, StudyDropped, type Course } from '#lib/data/workspace/study.ts';

/** A study of so many steps, each a millisecond of a clock of its own, and what it went through. */
function study(steps: number) {
  let clockMs = 0;
  const seen: string[] = [];
  function* work(): Generator<undefined, string, undefined> {
    for (let step = 0; step < steps; step++) {
      clockMs++;
      seen.push('step');
      yield;
    }
    return 'answer';
  }
  return { work: work(), seen, now: () => clockMs };
}

const never = () => false;

function courseOf(seen: string[], isDropped: () => boolean = never): Course {
  return {
    rest: () => {
      seen.push('rest');
      return Promise.resolve();
    },
    isDropped
  };
}

describe('a study', () => {
  it('rests before it begins and every few milliseconds', async () => {
    const { work, seen, now } = study(20);
    const driven = await drive(work, courseOf(seen), now, never);
    expect(driven).toEqual({ isDone: true, answer: 'answer' });
    expect(seen[0]).toBe('rest');
    const turns = seen
      .join(' ')
      .split('rest')
      .map((turn) => turn.trim().split(' ').filter(Boolean).length);
    expect(Math.max(...turns)).toBeLessThanOrEqual(6);
    expect(turns.reduce((sum, count) => sum + count, 0)).toBe(20);
  });

  it('is let go mid-way when it is wanted no more', async () => {
    const { work, seen, now } = study(100);
    const course = courseOf(seen, () => seen.length > 10);
    await expect(drive(work, course, now, never)).rejects.toThrow(StudyDropped);
    expect(seen.filter((what) => what === 'step').length).toBeLessThan(20);
  });

  it('ends without an answer when what it rests on has changed', async () => {
    const { work, seen, now } = study(100);
    const driven = await drive(work, courseOf(seen), now, () => seen.length > 10);
    expect(driven).toEqual({ isDone: false });
  });
});
