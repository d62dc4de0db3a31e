import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  createJudgement,
  judge,
  judgeDistance,
  judgeRange,
  limitBases,
  notJudged,
  outside,
  verdicts,
  within,
  type Judgement,
  type LimitBase
} from '#lib/core/reconciliation/index.ts';

interface Facts {
  readonly d: number;
  readonly metered?: number;
  readonly expected?: number;
  readonly departure?: number;
  readonly uncertainty?: number;
}

function judged(facts: Facts, base: LimitBase, percent: number, floorKg: number): Judgement {
  const out = createJudgement();
  const { d, metered = 10000, expected = 15000, departure = 20000, uncertainty = NaN } = facts;
  judge(
    d,
    metered,
    expected,
    departure,
    { base: limitBases.indexOf(base), percent, floorKg },
    uncertainty,
    out
  );
  return out;
}

describe('judge', () => {
  it.each<[number, LimitBase, number, number, number, number, number]>([
    [300, 'meteredMass', 3, 100, 10000, 300, within],
    [300.001, 'meteredMass', 3, 100, 10000, 300, outside],
    [-300.001, 'meteredMass', 3, 100, 10000, 300, outside],
    [450, 'expectedDeparture', 3, 100, 15000, 450, within],
    [451, 'expectedDeparture', 3, 100, 15000, 450, outside],
    [600, 'higherOfExpectedAndIndicated', 3, 100, 20000, 600, within],
    [601, 'higherOfExpectedAndIndicated', 3, 100, 20000, 600, outside],
    [399, 'meteredMass', 3, 400, 10000, 400, within],
    [401, 'meteredMass', 3, 400, 10000, 400, outside],
    [301, 'meteredMass', 3, NaN, 10000, 300, outside],
    [99, 'meteredMass', NaN, 100, 10000, 100, within],
    [101, 'meteredMass', NaN, 100, 10000, 100, outside]
  ])('of %d kg by %s, %d percent, floor %d', (d, base, percent, floorKg, baseKg, limitKg, verdict) => {
    const out = judged({ d }, base, percent, floorKg);
    expect(out.verdict).toBe(verdict);
    expect(out.baseKg).toBe(baseKg);
    expect(out.limitKg).toBe(limitKg);
    expect(out.percentOfBase).toBeCloseTo((100 * d) / baseKg, 12);
  });

  it('takes the floor where nothing was metered', () => {
    expect(judged({ d: 50, metered: 0 }, 'meteredMass', 3, 100).verdict).toBe(within);
    expect(judged({ d: 150, metered: 0 }, 'meteredMass', 3, 100).verdict).toBe(outside);
    expect(judged({ d: 150, metered: 0 }, 'meteredMass', 3, 100).percentOfBase).toBeNaN();
  });

  it.each<[string, Facts, LimitBase, number, number]>([
    ['no discrepancy', { d: NaN }, 'meteredMass', 3, 100],
    ['no base', { d: 10, metered: NaN }, 'meteredMass', 3, 100],
    ['no expected departure', { d: 10, expected: NaN }, 'higherOfExpectedAndIndicated', 3, 100],
    ['no limit', { d: 10 }, 'meteredMass', NaN, NaN],
    ['a negative limit', { d: 10 }, 'meteredMass', -3, NaN]
  ])('does not judge %s', (_what, facts, base, percent, floorKg) => {
    expect(judged(facts, base, percent, floorKg).verdict).toBe(notJudged);
  });

  it.each([
    [150, 335, true],
    [335, 335, true],
    [-335, 335, true],
    [400, 335, false],
    [150, NaN, false],
    [NaN, 335, false]
  ])('says whether %d kg is within an uncertainty of %d', (d, uncertainty, expected) => {
    expect(judged({ d, uncertainty }, 'meteredMass', 1, NaN).isWithinUncertainty).toBe(expected);
  });

  const number = fc.oneof(fc.constant(NaN), fc.double({ min: -1e5, max: 1e5, noNaN: true }), fc.double());

  it('never calls a missing number within or outside', () => {
    fc.assert(
      fc.property(
        number,
        number,
        number,
        number,
        number,
        number,
        (d, metered, expected, departure, percent, floorKg) => {
          const facts = { d, metered, expected, departure };
          for (const base of limitBases) {
            const out = judged(facts, base, percent, floorKg);
            const isJudged = out.verdict !== notJudged;
            if (isJudged) expect([d, out.limitKg].some(Number.isNaN)).toBe(false);
            expect(verdicts[out.verdict]).toBeDefined();
          }
        }
      ),
      { numRuns: 300 }
    );
  });

  it('is symmetric in the sign of the discrepancy and unmoved by a common scale', () => {
    const amount = fc.double({ min: 1, max: 1e5, noNaN: true });
    fc.assert(
      fc.property(amount, amount, (d, metered) => {
        const plain = judged({ d, metered }, 'meteredMass', 3, 100).verdict;
        expect(judged({ d: -d, metered }, 'meteredMass', 3, 100).verdict).toBe(plain);
        expect(judged({ d: 4 * d, metered: 4 * metered }, 'meteredMass', 3, 400).verdict).toBe(plain);
      })
    );
  });
});

describe('judgeDistance and judgeRange', () => {
  it.each([
    [3, 3, within],
    [-3, 3, within],
    [3.01, 3, outside],
    [-3.01, 3, outside],
    [NaN, 3, notJudged],
    [3, NaN, notJudged],
    [0, -1, notJudged]
  ])('judges %d against a distance of %d', (value, limit, verdict) => {
    expect(judgeDistance(value, limit)).toBe(verdict);
  });

  it.each([
    [775, 775, 840, within],
    [840, 775, 840, within],
    [774.9, 775, 840, outside],
    [840.1, 775, 840, outside],
    [900, 775, NaN, within],
    [700, NaN, 840, within],
    [900, NaN, 840, outside],
    [800, NaN, NaN, notJudged],
    [NaN, 775, 840, notJudged]
  ])('judges %d between %d and %d', (value, minimum, maximum, verdict) => {
    expect(judgeRange(value, minimum, maximum)).toBe(verdict);
  });
});
