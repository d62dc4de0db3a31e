import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bandCentres } from '#lib/charts/bands.ts';
import { spanOf } from '#lib/charts/domain.ts';
import {
  freePlaces,
  keepEvery,
  keyHeight,
  placeKey,
  placeLabels,
  spreadApart,
  textPx
} from '#lib/charts/labels.ts';
import { rowLayout } from '#lib/charts/rows.ts';
import { clampPx, whiskerPath } from '#lib/charts/whisker.ts';

describe('spanOf', () => {
  it.each([
    ['opens to whole steps', [0.3, 4.7], {}, [0, 5]],
    ['holds zero where asked', [3, 9], { zero: true }, [0, 9]],
    ['is symmetric about zero where asked', [-1, 4], { symmetric: true }, [-4, 4]],
    ['leaves missing values out', [NaN, 2, 4, Infinity], {}, [2, 4]],
    ['is 0 to 1 where nothing is finite', [NaN], {}, [0, 1]],
    ['keeps a scale that was asked for', [99], { asked: [-1, 1] as const }, [-1, 1]]
  ])('%s', (_title, values, options, expected) => {
    expect(spanOf(values, options)).toEqual(expected);
  });

  it('gives a single value room on both sides', () => {
    const [low, high] = spanOf([800]);
    expect(low).toBeLessThan(800);
    expect(high).toBeGreaterThan(800);
  });
});

describe('rowLayout', () => {
  it('sets names beside rows in a wide drawing and above them in a narrow one', () => {
    const names = ['Marrowdale Aviation Fuels', 'Ostrel Fuels'];
    const notes = ['31 of 412, 9 suspected slips', '2 of 9'];
    expect(rowLayout(900, names, notes).stacked).toBe(false);
    expect(rowLayout(358, names, notes).stacked).toBe(true);
  });

  it('never gives a plot without width, whatever the names', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 240, max: 2000 }),
        fc.array(fc.string({ maxLength: 60 }), { maxLength: 9 }),
        (width, names) => {
          const layout = rowLayout(width, names, names);
          expect(layout.plotRight - layout.plotLeft).toBeGreaterThanOrEqual(40);
          expect(layout.plotRight).toBeLessThanOrEqual(width);
        }
      ),
      { numRuns: 80 }
    );
  });
});

describe('placeLabels', () => {
  it('stacks words that collide, the left one further out', () => {
    const placed = placeLabels(
      [
        { x: 100, text: 'meter exchange' },
        { x: 120, text: 'gauge work' }
      ],
      600
    );
    expect(placed.map((place) => place.row)).toEqual([1, 0]);
  });

  it('keeps all words inside and apart', () => {
    const items = fc.array(
      fc.record({ x: fc.integer({ min: 0, max: 700 }), text: fc.string({ minLength: 1, maxLength: 40 }) }),
      {
        maxLength: 12
      }
    );
    fc.assert(
      fc.property(items, (given) => {
        const sorted = given.toSorted((a, b) => a.x - b.x);
        const boxes = placeLabels(sorted, 700).map((place, index) => ({
          ...place,
          end: place.x + textPx(sorted[index]?.text ?? '')
        }));
        for (const [index, box] of boxes.entries()) {
          expect(box.x).toBeGreaterThanOrEqual(0);
          expect(box.end).toBeLessThanOrEqual(700);
          for (const other of boxes.slice(index + 1)) {
            const apart = box.row !== other.row || box.end <= other.x || other.end <= box.x;
            expect(apart).toBe(true);
          }
        }
      }),
      { numRuns: 80 }
    );
  });
});

describe('freePlaces', () => {
  it('names a point on its other side, or not at all, where the first side is taken', () => {
    const items = [
      { key: 'a', text: 'JARV', x: 200, y: 50 },
      { key: 'b', text: 'JBEL', x: 190, y: 52 },
      { key: 'c', text: 'JCOD', x: 195, y: 51 }
    ];
    expect(freePlaces(items, [0, 400]).map((place) => [place.key, place.left])).toEqual([
      ['a', false],
      ['b', true]
    ]);
  });
});

describe('the small helpers', () => {
  it('keepEvery thins labels in steps of 1, 2, 5, 10', () => {
    expect([40, 25, 10, 4.1, 2].map((step) => keepEvery(step, 40))).toEqual([1, 2, 5, 10, 20]);
  });

  it('placeKey breaks a key into rows that fit', () => {
    const places = placeKey(['used 14 400', 'set aside 720', 'refused 312', 'skipped 48'], 240);
    expect(places.map((place) => place.row)).toEqual([0, 0, 1, 1]);
    expect(keyHeight(places)).toBe(44);
    expect(keyHeight([])).toBe(0);
  });

  it('spreadApart keeps the order, the gap and the middle', () => {
    const spread = spreadApart([10, 12, 11, 90], 14);
    const order = spread.toSorted((a, b) => a - b);
    expect(order).toEqual([0, 2, 1, 3].map((index) => spread[index]));
    order
      .slice(1)
      .forEach((place, index) => expect(place - (order[index] ?? NaN)).toBeGreaterThanOrEqual(14));
    expect(spread.reduce((a, b) => a + b)).toBeCloseTo(10 + 12 + 11 + 90, 9);
  });

  it('bandCentres divides a stretch evenly', () => {
    expect(bandCentres(4, 0, 80)).toEqual([10, 30, 50, 70]);
  });
});

describe('whiskerPath', () => {
  it('ends in a stroke inside the scale and in an arrow head beyond it', () => {
    expect(whiskerPath(20, 60, 5, [0, 100])).toBe('M20 5L60 5M20 1L20 9M60 1L60 9');
    expect(whiskerPath(20, 160, 5, [0, 100])).toBe('M20 5L100 5M20 1L20 9M96 1L100 5L96 9');
  });

  it('stands up along a scale that runs upwards', () => {
    expect(whiskerPath(60, 20, 5, [100, 0], true)).toBe('M5 20L5 60M1 20L9 20M1 60L9 60');
  });

  it('draws nothing where an end is missing', () => {
    expect(whiskerPath(NaN, 60, 5, [0, 100])).toBe('');
    expect(clampPx(-5, [100, 0])).toBe(0);
  });
});
