import { render } from 'svelte/server';
import { describe, expect, it } from 'vitest';
import { factorScale, factorSteps, formatFactor, formatFactors, ratioTwin } from '#lib/charts/ratio-dots.ts';
import type { RatioDatum } from '#lib/charts/ratio-dots.ts';
import RatioDots from '#lib/charts/RatioDots.svelte';
import { farthestFromLine, markPlaces, tidy } from './drawn.ts';

const names = {
  item: 'Supplier',
  ratio: 'Times the rate of all others',
  events: 'failed',
  n: 'with a result',
  against: 'all others'
};

const data: RatioDatum[] = [0.5, 1, 2.5, 4].map((ratio, index) => ({
  key: `s${index}`,
  label: `Supplier ${index}`,
  ratio,
  low: ratio / 3,
  high: index === 3 ? Infinity : ratio * 3,
  events: index,
  n: 100,
  againstEvents: 5,
  againstN: 900,
  mark: 'open',
  word: 'not told apart'
}));

describe('ratios of rates', () => {
  it('stand on a scale of equal factors, at the numbers of their twin', () => {
    const svg = tidy(render(RatioDots, { props: { title: 'T', description: 'D', data, names } }));
    const places = markPlaces(svg);
    const pairs = data.map(({ key, ratio }) => ({
      value: Math.log(ratio),
      place: places.get(key)?.x ?? NaN
    }));
    expect(farthestFromLine(pairs)).toBeLessThan(0.02);
    const twin = ratioTwin(data, names, 'Ratios');
    expect(twin.rows.map(({ cells }) => cells[5]?.sort)).toEqual([0.5, 1, 2.5, 4]);
    expect(twin.rows[3]?.cells[6]?.text).toBe('1.3 or more');
  });

  it('draw nothing where there is no ratio, and keep the row', () => {
    const [first] = data;
    const none = [{ ...first, key: 'none', ratio: NaN, low: 0, high: Infinity } as RatioDatum, ...data];
    const svg = tidy(render(RatioDots, { props: { title: 'T', description: 'D', data: none, names } }));
    expect(markPlaces(svg).has('none')).toBe(false);
    expect(ratioTwin(none, names, '').rows[0]?.cells[5]?.text).toBe('none');
  });

  it.each([
    [0.004, 'none', '0.00'],
    [0, '', '0'],
    [0.871, '', '0.87'],
    [3.04, '', '3.0'],
    [44.9, '', '45'],
    [Infinity, '', 'no upper end']
  ])('write the factor %s with the digits that count', (factor, _word, text) => {
    expect(formatFactor(factor)).toBe(text);
  });

  it('say where an interval has no upper end', () => {
    expect(formatFactors(0.87, 44.9)).toBe('0.87 to 45');
    expect(formatFactors(1.2, Infinity)).toBe('1.2 or more');
    expect(formatFactors(NaN, 2)).toBe('none');
  });

  it('have a scale that holds every ratio and 1, and no end of an interval beyond 20 times', () => {
    expect(factorSteps(0.3, 3)).toEqual([0.2, 0.5, 1, 2, 5]);
    const scale = factorScale(data);
    expect(scale[0]).toBeLessThanOrEqual(0.5 / 3);
    expect(scale.at(-1)).toBe(20);
  });
});
