import { describe, expect, it } from 'vitest';
import {
  formatCount,
  formatInterval,
  formatNumber,
  formatPercent,
  formatPercentInterval
} from '#lib/ui/format.ts';
import { decimalsOfStep } from '#lib/charts/format.ts';

const MINUS = '\u2212';
const THIN = '\u2009';

describe('formatNumber', () => {
  it.each([
    [-1234.5, { decimals: 1 }, `${MINUS}1${THIN}234.5`],
    [1234567, {}, `1${THIN}234${THIN}567`],
    [0.62, { decimals: 2, signed: true }, '+0.62'],
    [-0.62, { decimals: 2, signed: true }, `${MINUS}0.62`],
    [0, { decimals: 1, signed: true }, '0.0'],
    [-0.04, { decimals: 1, signed: true }, '0.0'],
    [0.04, { decimals: 1, signed: true }, '0.0'],
    [-0.06, { decimals: 1, signed: true }, `${MINUS}0.1`],
    [-0, {}, '0']
  ])('writes %d with %o as it stands on a page', (value, form, text) => {
    expect(formatNumber(value, form)).toBe(text);
  });

  it.each([NaN, Infinity, -Infinity])('writes %d as not recorded, or in the words given', (value) => {
    expect(formatNumber(value)).toBe('not recorded');
    expect(formatNumber(value, { missing: 'none' })).toBe('none');
  });
});

describe('the other forms', () => {
  it('writes a fraction as percent with a thin space', () => {
    expect(formatPercent(0.0431)).toBe(`4.3${THIN}%`);
    expect(formatPercent(0.0431, { decimals: 2, signed: true })).toBe(`+4.31${THIN}%`);
    expect(formatPercent(NaN, { missing: 'none' })).toBe('none');
  });

  it('writes the unit of an interval once', () => {
    expect(formatPercentInterval(0.006, 0.167)).toBe(`0.6 to 16.7${THIN}%`);
    expect(formatInterval(-0.62, 0.62, { decimals: 2, signed: true })).toBe(`${MINUS}0.62 to +0.62`);
    expect(formatInterval(NaN, 1)).toBe('not recorded');
  });

  it('writes a count with thin spaces, a missing one in the words given', () => {
    expect(formatCount(60214)).toBe(`60${THIN}214`);
    expect(formatCount(NaN, '')).toBe('');
  });
});

describe('decimalsOfStep', () => {
  it.each([
    [20, 0],
    [1, 0],
    [0.5, 1],
    [0.25, 2],
    [0.001, 3]
  ])('a step of %d needs %d', (step, decimals) => {
    expect(decimalsOfStep(step)).toBe(decimals);
  });
});
