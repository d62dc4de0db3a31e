import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type CauseCode,
  causeCodes,
  type CauseEvidence,
  causeFacts,
  causeOutcomes,
  type CauseSign,
  causeSigns,
  clearCauseEvidence,
  createCauseEvidence,
  createCauseProposals,
  defaultCauseOptions,
  groupCauseCodes,
  isSuspectedSlip,
  isWild,
  proposeCauses,
  signsOf
} from '#lib/core/causes/index.ts';
import { seeded } from './random.ts';
import { slips } from './slips.ts';
import { cleanPapers, evidenceOf } from './world.ts';

const options = defaultCauseOptions;

describe('which records are wild', () => {
  // Metered 6 000 kg: standard deviation hypot(0.012, 60 / 6 000) = 0.0156; four of them are 6.4 %.
  test.each([
    ['within four standard deviations', 6000, 6350, {}, false],
    ['beyond', 6000, 6420, {}, true],
    ['beyond on the other side', 6000, 5600, {}, true],
    ['explained by its instruments', 6000, 6420, { ownUncertaintyKg: 163 }, false],
    ['expected of its tail', 6000, 6420, { expectedLogRatio: 0.03 }, false],
    ['beyond what its quiet tail shows', 6000, 6200, { relativeScatter: 0.003, noiseKg: 20 }, true],
    ['below the floor in kg', 300, 395, { noiseKg: 5 }, false],
    ['a gauge that fell', 6000, -2000, {}, true],
    ['a half missing', NaN, 5000, {}, false],
    ['gauge missing', 5000, NaN, {}, false]
  ])('%s', (_what, meteredMassKg, gaugeUpliftKg, known, expected) => {
    const evidence = { ...createCauseEvidence(), meteredMassKg, gaugeUpliftKg, ...known };
    expect(isWild(evidence, options)).toBe(expected);
  });
});

describe('signs that matter where the discrepancy is small', () => {
  const cases: readonly (readonly [CauseSign, Partial<CauseEvidence>, Partial<CauseEvidence>])[] = [
    ['densityNoFuel', { observedDensityKgM3: 0.8 }, { observedDensityKgM3: 800 }],
    [
      'massIsPoundsPerLitre',
      { recordedUpliftKg: 8703, volumeL: 4917 },
      { recordedUpliftKg: 3948, volumeL: 4917 }
    ],
    ['temperatureOutOfWeather', { sampleTemperatureC: 77 }, { sampleTemperatureC: 25 }],
    [
      'onOneSide',
      { leftAfterKg: 1166, rightAfterKg: 277, gaugeUpliftKg: 900 },
      { leftAfterKg: 1166, rightAfterKg: 277, gaugeUpliftKg: 1200 }
    ],
    [
      'unbalanced',
      { leftAfterKg: 1166, rightAfterKg: 277, imbalanceLimitKg: 550 },
      { leftAfterKg: 1166, rightAfterKg: 777, imbalanceLimitKg: 550 }
    ],
    [
      'aboveCapacity',
      { departureFuelKg: 21_000, capacityKg: 20_000 },
      { departureFuelKg: 20_100, capacityKg: 20_000 }
    ],
    ['meterRunsBackwards', { meterStartL: 9000, meterStopL: 100 }, { meterStartL: 100, meterStopL: 9000 }],
    [
      'volumeIsMeterStop',
      { volumeL: 9000, meterStartL: 100, meterStopL: 9000 },
      { volumeL: 9000, meterStartL: 0, meterStopL: 9000 }
    ],
    ['sameVolumeTwice', { minutesToDuplicate: 4 }, {}],
    ['defuelledNegative', { defuelledKg: -500 }, { defuelledKg: 500 }],
    [
      'arrivalAbovePrevious',
      { arrivalFuelKg: 5000, previousDepartureKg: 4000 },
      { arrivalFuelKg: 4000, previousDepartureKg: 4000 }
    ],
    [
      'gaugeFell',
      { arrivalFuelKg: 5000, departureFuelKg: 4000, meteredMassKg: 900 },
      { arrivalFuelKg: 5000, departureFuelKg: 4000, meteredMassKg: 0 }
    ]
  ];

  test.each(cases)('%s', (sign, known, harmless) => {
    const bit = 2 ** causeSigns.indexOf(sign);
    expect(signsOf({ ...createCauseEvidence(), ...known }, options)).toBe(bit);
    expect(signsOf({ ...createCauseEvidence(), ...harmless }, options)).toBe(0);
  });
});

describe('suspected slips', () => {
  const proposed = (outcome: string, codes: readonly CauseCode[]) => {
    const out = createCauseProposals();
    out.outcome = causeOutcomes.findIndex((code) => code === outcome);
    out.cause = codes[0] === undefined ? -1 : causeCodes.indexOf(codes[0]);
    for (const code of codes) out.group[causeCodes.indexOf(code)] = 1;
    return out;
  };
  const uplift = (meteredMassKg: number, gaugeUpliftKg: number, capacityKg = 20_000) => ({
    ...createCauseEvidence(),
    meteredMassKg,
    gaugeUpliftKg,
    capacityKg
  });

  test.each([
    ['a slip is named', 'named', ['usGallonsAsLitres'], true],
    ['a density default is named', 'named', ['defaultDensity'], false],
    ['a density at 15 C is named', 'named', ['density15AsObserved'], false],
    ['one tank is named', 'named', ['oneTank'], false],
    ['several slips cannot be told apart', 'cannotTell', ['kilogramsAsLitres', 'imperialGallonsAsUs'], true],
    ['a slip cannot be told from a default', 'cannotTell', ['singleDigit', 'defaultDensity'], false],
    ['nothing is wrong', 'nothingWrong', [], false]
  ] as const)('%s', (_what, outcome, codes, expected) => {
    expect(isSuspectedSlip(uplift(6000, 5500), options, proposed(outcome, codes))).toBe(expected);
  });

  test.each([
    ['beyond 2.5 times', uplift(3000, 7600), true],
    ['below 2.5 times', uplift(3000, 7400), false],
    ['below a 2.5th', uplift(7600, 3000), true],
    ['a gauge that did not move', uplift(7600, 100), false],
    ['a gauge that fell', uplift(7600, -3000), true],
    ['too small for its capacity', uplift(600, 2000), false],
    ['the same with no capacity known', uplift(600, 2000, NaN), true],
    ['below the floor', uplift(200, 650, NaN), false]
  ])('an unknown cause, %s', (_what, evidence, expected) => {
    expect(isSuspectedSlip(evidence, options, proposed('unknown', []))).toBe(expected);
  });
});

describe('what always holds', () => {
  const record = fc.integer({ min: 0, max: 1e9 }).map((seed) => {
    const random = seeded(seed);
    const papers = cleanPapers(random);
    const code = causeCodes[random.below(causeCodes.length)];
    if (code !== undefined) slips[code]?.(papers, random);
    return evidenceOf(papers);
  });

  test('shares are between 0 and 1 and add up to 1, and evidence is left as it was', () => {
    fc.assert(
      fc.property(record, (evidence) => {
        const out = createCauseProposals();
        const before = { ...evidence };
        proposeCauses(evidence, options, out);
        expect(evidence).toEqual(before);
        const shares = [...out.posterior, out.unknown, out.nothingWrong];
        for (const share of shares) expect(share >= 0 && share <= 1).toBe(true);
        expect(shares.reduce((total, share) => total + share, 0)).toBeCloseTo(1, 9);
      }),
      { numRuns: 200 }
    );
  });

  test('a cause is named only from 0.9 on and within three standard deviations', () => {
    fc.assert(
      fc.property(record, (evidence) => {
        const out = createCauseProposals();
        proposeCauses(evidence, options, out);
        if (causeOutcomes[out.outcome] !== 'named') return;
        expect(out.posterior[out.cause]).toBeGreaterThanOrEqual(options.nameFrom);
        expect(out.residualSd[out.cause]).toBeLessThan(options.nameWithinSd);
      }),
      { numRuns: 200 }
    );
  });

  test('what one record found does not reach the next', () => {
    fc.assert(
      fc.property(record, record, (first, second) => {
        const used = createCauseProposals();
        proposeCauses(first, options, used);
        proposeCauses(second, options, used);
        const fresh = createCauseProposals();
        proposeCauses(second, options, fresh);
        for (const key of ['outcome', 'cause', 'posterior', 'group', 'residualSd', 'figureValue'] as const)
          expect(used[key]).toEqual(fresh[key]);
      }),
      { numRuns: 100 }
    );
  });

  test('a record of which nothing is known is unexplained, not wild, and without a sign', () => {
    const evidence = createCauseEvidence();
    const out = createCauseProposals();
    proposeCauses(evidence, options, out);
    expect(causeOutcomes[out.outcome]).toBe('unknown');
    expect([out.unknown, out.cause]).toEqual([1, -1]);
    expect([isWild(evidence, options), signsOf(evidence, options)]).toEqual([false, 0]);
  });

  test('used evidence can be made unknown again', () => {
    const evidence = evidenceOf(cleanPapers(seeded(1)));
    clearCauseEvidence(evidence);
    expect(evidence).toEqual(createCauseEvidence());
  });

  test('look-alikes are causes of the lists, and none looks like itself', () => {
    const known: readonly string[] = [...causeCodes, ...groupCauseCodes];
    for (const code of causeCodes) {
      for (const other of causeFacts[code].looksLike) expect(known).toContain(other);
      expect(causeFacts[code].looksLike).not.toContain(code);
    }
  });
});
