import { describe, expect, it } from 'vitest';
import { METHODS } from '../../../reference/methods.ts';
import { readCases } from '../../../reference/read-case.ts';

// Judged where the named causes are judged: core/causes.
const ELSEWHERE = 'hypothesis.posterior';

const cases = readCases(new URL('../../../reference/statistics.json', import.meta.url));
const own = cases.filter((entry) => entry.method !== ELSEWHERE);

/** The numbers of an answer; null, as JSON writes what is not a number, is NaN. */
function listOf(value: unknown): number[] {
  if (typeof value === 'number') return [value];
  if (value === null) return [NaN];
  if (value instanceof Float64Array || value instanceof Int32Array) return [...value];
  if (Array.isArray(value)) return value.flatMap(listOf);
  throw new Error(`value: ${JSON.stringify(value)}, need numbers`);
}

/** Effects scatter about 0, where only an absolute tolerance means anything. */
const isEffect = (name: string): boolean => /^(blup|condSd|sePev|js|z|sd|hi|lo)/.test(name);

function isClose(got: number, want: number, tolerance: number, name: string): boolean {
  if (Number.isNaN(want)) return Number.isNaN(got);
  const floor = isEffect(name) || want === 0 ? 1e-2 * tolerance : 0;
  return Math.abs(got - want) <= Math.max(tolerance * Math.abs(want), floor);
}

/** Where got and want differ by more than the tolerance. */
function differences(all: number[], want: number[], tolerance: number, name: string): string[] {
  // The reference gives limits that are the same everywhere once.
  const got = want.length === 1 && new Set(all).size === 1 ? all.slice(0, 1) : all;
  if (got.length !== want.length) return [`${name}: ${got.length} values, need ${want.length}`];
  return want
    .map((value, i) => ({ value, got: got[i] ?? NaN, i }))
    .filter((pair) => !isClose(pair.got, pair.value, tolerance, name))
    .map((pair) => `${name}[${pair.i}]: ${pair.got}, need ${pair.value}`);
}

describe('the statistics agree with published examples and with an independent implementation', () => {
  it('has every case of the reference', () => {
    expect(cases.length).toBe(105);
    expect(own.length).toBe(101);
  });

  it.each(own)('$id ($method)', ({ method, input, expected, toleranceRel }) => {
    const compute = METHODS[method];
    if (compute === undefined) throw new Error(`method: ${method}, need a function for it`);
    const answer = compute(input);
    const wrong = Object.entries(expected).flatMap(([name, want]) =>
      differences(listOf(answer[name]), listOf(want), toleranceRel, name)
    );
    expect(wrong).toEqual([]);
  });
});
