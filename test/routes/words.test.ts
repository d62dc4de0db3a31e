import { describe, expect, it } from 'vitest';
import { monthDays, periodWords, signedKg, verdictMark } from '../../src/routes/words.ts';

describe('words of pages', () => {
  it('say the side beside every signed mass', () => {
    expect(signedKg(120)).toBe('+120 kg, gauge says more');
    expect(signedKg(-1200)).toBe('\u22121\u2009200 kg, meter says more');
    expect(signedKg(NaN)).toBe('not reconcilable');
  });

  it('give a month its first and last day', () => {
    expect(monthDays('2032-02')).toEqual({ fromDay: '2032-02-01', untilDay: '2032-02-29' });
    expect(monthDays('2031-12')).toEqual({ fromDay: '2031-12-01', untilDay: '2031-12-31' });
  });

  it('name a period by the ends that are set', () => {
    expect(periodWords('2031-07-01', '2031-07-31')).toBe('1 Jul 2031 to 31 Jul 2031');
    expect(periodWords(undefined, '2031-07-31')).toBe('until 31 Jul 2031');
    expect(periodWords('2031-07-01', undefined)).toBe('from 1 Jul 2031');
  });

  it('ink a verdict half where the record’s own uncertainty explains it', () => {
    expect(verdictMark('within', 0.2)).toBe('open');
    expect(verdictMark('outside', -0.9)).toBe('half');
    expect(verdictMark('outside', NaN)).toBe('ringed');
    expect(verdictMark('notJudged', NaN)).toBe('plain');
  });
});
