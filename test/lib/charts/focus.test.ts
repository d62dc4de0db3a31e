import { describe, expect, it } from 'vitest';
import { moveFocus, nearestPlace, pointAt, type FocusPoint } from '#lib/charts/focus.ts';

const point = (key: string, x: number, y = 0, signal = false): FocusPoint => ({
  key,
  x,
  y,
  words: key,
  signal
});
const one = [[point('a', 0), point('b', 10, 0, true), point('c', 20), point('d', 30, 0, true)]];
const two = [[point('a', 0), point('b', 10), point('c', 20)], [], [point('x', 9, 50), point('y', 21, 50)]];
const at = (series: number, p: number) => ({ series, point: p });

describe('moveFocus', () => {
  it.each([
    ['the first key of any kind starts at the first point', one, null, 'ArrowRight', at(0, 0)],
    ['end from outside starts at the last point', one, null, 'End', at(0, 3)],
    ['right goes to the next point', one, at(0, 0), 'ArrowRight', at(0, 1)],
    ['left at the first point leads nowhere', one, at(0, 0), 'ArrowLeft', null],
    ['down walks points where there is one series', one, at(0, 1), 'ArrowDown', at(0, 2)],
    ['up walks back where there is one series', one, at(0, 1), 'ArrowUp', at(0, 0)],
    ['down goes to the nearest point of the next series that has any', two, at(0, 2), 'ArrowDown', at(2, 1)],
    ['up comes back to the nearest', two, at(2, 0), 'ArrowUp', at(0, 1)],
    ['down in the last series leads nowhere', two, at(2, 0), 'ArrowDown', null],
    ['home goes to the first point', one, at(0, 2), 'Home', at(0, 0)],
    ['end goes to the last point', one, at(0, 0), 'End', at(0, 3)],
    ['page down goes to the next signal', one, at(0, 1), 'PageDown', at(0, 3)],
    ['page up goes to the signal before', one, at(0, 3), 'PageUp', at(0, 1)],
    ['page down without a signal ahead leads nowhere', one, at(0, 3), 'PageDown', null],
    ['other keys mean nothing', one, at(0, 0), 'q', null],
    ['a chart without points has nowhere to go', [[]], null, 'ArrowRight', null]
  ])('%s', (_title, series, from, key, expected) => {
    expect(moveFocus(series, from, key)).toEqual(expected);
  });

  it('matches neighbouring series by slot where points have one', () => {
    const wrapped = [
      [
        { ...point('a0', 5), slot: 0 },
        { ...point('a9', 5), slot: 9 }
      ],
      [
        { ...point('b0', 5), slot: 0 },
        { ...point('b9', 5), slot: 9 }
      ]
    ];
    expect(moveFocus(wrapped, at(0, 1), 'ArrowDown')).toEqual(at(1, 1));
  });
});

describe('nearestPlace', () => {
  it('takes the nearest point within 28 px', () => {
    expect(nearestPlace(two, 12, 3)).toEqual(at(0, 1));
    expect(nearestPlace(two, 200, 200)).toBeNull();
  });

  it('counts only the distance across rows or columns where the whole row or column answers', () => {
    expect(nearestPlace(two, 500, 48, 'row')).toEqual(at(2, 0));
    expect(nearestPlace(two, 20, 500, 'column')).toEqual(at(0, 2));
  });

  it('has no point at a place that the data no longer have', () => {
    expect(pointAt(one, at(0, 9))).toBeUndefined();
    expect(pointAt(one, null)).toBeUndefined();
  });
});
