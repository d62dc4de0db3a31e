import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addTicket,
  amountToAdd,
  clearRefuellingInput,
  codesIn,
  createRefuellingInput,
  createRefuellingResult,
  defaultMethod,
  marks,
  qualities,
  reasons,
  reconcileRefuelling,
  totalOnBoard,
  type Mark,
  type Reason,
  type RefuellingInput
} from '#lib/core/reconciliation/index.ts';
import { refuellingOf, ticketOf, ticketOfMass } from './given.ts';

const gauges = { arrivalFuelKg: 3000, departureFuelKg: 11000 };
const marksOf = (bits: number): Mark[] => codesIn(marks, bits);
const reasonsOf = (bits: number): Reason[] => codesIn(reasons, bits);

describe('the discrepancy', () => {
  it('is gauge uplift less metered mass: plus, the gauge says more', () => {
    const result = refuellingOf([ticketOfMass(7900)], { ...gauges, groundBurnKg: 0 });
    expect(result.gaugeUpliftKg).toBe(8000);
    expect(result.discrepancyKg).toBe(100);
    expect(result.ratio).toBeCloseTo(8000 / 7900, 12);
    expect(result.expectedDepartureKg).toBe(10900);
    expect(result.percentOfMetered).toBeCloseTo(100 / 79, 12);
    expect(result.percentOfHigher).toBeCloseTo(100 / 110, 12);
    expect(qualities[result.quality]).toBe('measured');
    expect(marksOf(result.marks)).toEqual([]);
  });

  it('counts fuel burnt on the ground and fuel taken out as delivered', () => {
    const result = refuellingOf([ticketOfMass(8000)], { ...gauges, groundBurnKg: 60, defuelledKg: 500 });
    expect(result.gaugeUpliftKg).toBe(8560);
    expect(result.expectedDepartureKg).toBe(10440);
    expect(result.discrepancyKg).toBe(560);
    expect(marksOf(result.marks)).toEqual(['defuelled']);
  });

  it('sums the tickets first, each with its own density', () => {
    const first = ticketOf({ grossVolumeL: 5000, observedDensityKgM3: 800, sampleTemperatureC: 15 });
    const second = ticketOf({ grossVolumeL: 5000, observedDensityKgM3: 790 });
    const result = refuellingOf([first, second], gauges);
    expect(result.meteredMassKg).toBe(7950);
    expect(qualities[result.quality]).toBe('estimated');
    expect(reasonsOf(result.reasons)).toEqual(['temperatureMissing']);
    expect(marksOf(result.marks)).toContain('severalTickets');
  });

  it('is missing where one ticket has no mass: the others alone would understate the meter', () => {
    const known = ticketOf({ grossVolumeL: 5000, observedDensityKgM3: 800, sampleTemperatureC: 15 });
    const result = refuellingOf([known, ticketOf({ grossVolumeL: 5000 })], gauges);
    expect(result.meteredMassKg).toBeNaN();
    expect(result.discrepancyKg).toBeNaN();
    expect(qualities[result.quality]).toBe('notReconcilable');
    expect(reasonsOf(result.reasons)).toEqual(['densityMissing']);
  });

  it.each<[string, Partial<RefuellingInput>, Reason[]]>([
    ['arrival fuel', { departureFuelKg: 11000 }, ['arrivalFuelMissing']],
    ['both gauge readings', {}, ['arrivalFuelMissing', 'departureFuelMissing']],
    ['a negative reading', { arrivalFuelKg: -5, departureFuelKg: 11000 }, ['gaugeNegative']],
    ['a reading no aircraft has', { arrivalFuelKg: 5, departureFuelKg: 1e300 }, ['amountOutsideRange']],
    ['fuel taken out that no aircraft has', { ...gauges, defuelledKg: 2e9 }, ['amountOutsideRange']],
    ['negative ground burn', { ...gauges, groundBurnKg: -1 }, ['groundBurnNegative']],
    [
      'negative minutes',
      { ...gauges, groundMinutes: -9, groundBurnRateKgPerMinute: 2 },
      ['groundBurnNegative']
    ],
    ['negative defuelling', { ...gauges, defuelledKg: -500 }, ['defuelledNegative']]
  ])('is missing for %s and says so, while the metered mass stands', (_what, facts, why) => {
    const result = refuellingOf([ticketOfMass(8000)], facts);
    expect(result.meteredMassKg).toBe(8000);
    expect(result.discrepancyKg).toBeNaN();
    expect(result.normalisedError).toBeNaN();
    expect(qualities[result.quality]).toBe('notReconcilable');
    expect(reasonsOf(result.reasons)).toEqual(why);
  });

  it('needs a ticket', () => {
    const result = refuellingOf([], gauges);
    expect(result.meteredMassKg).toBeNaN();
    expect(reasonsOf(result.reasons)).toEqual(['volumeMissing']);
    expect(qualities[result.quality]).toBe('notReconcilable');
  });
});

describe('fuel only taken out', () => {
  it.each([
    ['a ticket without volume', [ticketOf({})]],
    ['no ticket', []]
  ])('is a metered mass of 0 against the gauge, by %s', (_what, tickets) => {
    const result = refuellingOf(tickets, {
      arrivalFuelKg: 9000,
      departureFuelKg: 7950,
      groundBurnKg: 0,
      defuelledKg: 1000
    });
    expect(result.meteredMassKg).toBe(0);
    expect(result.discrepancyKg).toBe(-50);
    expect(result.percentOfMetered).toBeNaN();
    expect(result.ratio).toBeNaN();
    expect(result.percentOfHigher).toBeCloseTo((-100 * 50) / 8000, 12);
    expect(qualities[result.quality]).toBe('measured');
    expect(reasonsOf(result.reasons)).toEqual([]);
    expect(marksOf(result.marks)).toEqual(['defuelled', 'defuelOnly']);
  });

  it('is not assumed where a ticket has a volume that cannot be weighed', () => {
    const result = refuellingOf([ticketOf({ grossVolumeL: 100 })], { ...gauges, defuelledKg: 1000 });
    expect(result.meteredMassKg).toBeNaN();
    expect(marksOf(result.marks)).not.toContain('defuelOnly');
  });
});

describe('ground burn', () => {
  it.each<[string, Partial<RefuellingInput>, number, Mark[]]>([
    ['as given', { groundBurnKg: 60, groundMinutes: 30, groundBurnRateKgPerMinute: 9 }, 60, []],
    ['as given 0', { groundBurnKg: 0 }, 0, []],
    ['0 where not recorded', {}, 0, ['groundBurnNotRecorded']],
    ['0 where only minutes are known', { groundMinutes: 30 }, 0, ['groundBurnNotRecorded']],
    ['0 where only a rate is set', { groundBurnRateKgPerMinute: 2 }, 0, ['groundBurnNotRecorded']],
    [
      'minutes times the rate',
      { groundMinutes: 30, groundBurnRateKgPerMinute: 2 },
      60,
      ['groundBurnNotRecorded', 'groundBurnFromMinutes']
    ]
  ])('counts %s', (_what, facts, burnKg, expected) => {
    const result = refuellingOf([ticketOfMass(8000)], { ...gauges, ...facts });
    expect(result.groundBurnKg).toBe(burnKg);
    expect(result.discrepancyKg).toBe(burnKg);
    expect(marksOf(result.marks)).toEqual(expected);
    expect(qualities[result.quality]).toBe('measured');
  });
});

describe('cross checks', () => {
  const facts = { ...gauges, groundBurnKg: 0 };

  it.each([
    [totalOnBoard, 10950, 50],
    [amountToAdd, 7900, 100],
    [0, 7900, NaN],
    [totalOnBoard, NaN, NaN]
  ])('ordered fuel of basis %d and %d kg differs by %d', (orderedBasis, orderedKg, difference) => {
    const result = refuellingOf([ticketOfMass(8000)], { ...facts, orderedBasis, orderedKg });
    expect(result.orderDifferenceKg).toBe(difference);
  });

  it('compare tanks with total, left with right, recorded with recomputed, sticks with gauge and meter', () => {
    const result = refuellingOf([ticketOfMass(7900)], {
      ...facts,
      tanksAfterKg: 10990,
      leftAfterKg: 5600,
      rightAfterKg: 5390,
      recordedUpliftKg: 7950,
      recordedDiscrepancyKg: 50,
      stickFuelKg: 10930
    });
    expect(result.tankSplitKg).toBe(10);
    expect(result.imbalanceKg).toBe(210);
    expect(result.recordedUpliftDifferenceKg).toBe(50);
    expect(result.recordedDiscrepancyDifferenceKg).toBe(-50);
    expect(result.stickLessGaugeKg).toBe(-70);
    expect(result.stickLessExpectedKg).toBe(30);
  });

  it('are missing where their measure is', () => {
    const result = refuellingOf([ticketOfMass(7900)], facts);
    expect(result.tankSplitKg).toBeNaN();
    expect(result.imbalanceKg).toBeNaN();
    expect(result.recordedUpliftDifferenceKg).toBeNaN();
    expect(result.recordedDiscrepancyDifferenceKg).toBeNaN();
    expect(result.stickLessGaugeKg).toBeNaN();
    expect(result.stickLessExpectedKg).toBeNaN();
  });

  it('mark a gauge that fell while fuel was delivered and none taken out', () => {
    const fell = { arrivalFuelKg: 9000, departureFuelKg: 8000 };
    expect(marksOf(refuellingOf([ticketOfMass(500)], fell).marks)).toContain('gaugeFellWhileFuelling');
    const taken = refuellingOf([ticketOfMass(500)], { ...fell, defuelledKg: 1500 });
    expect(marksOf(taken.marks)).not.toContain('gaugeFellWhileFuelling');
  });
});

const mass = fc.double({ min: 100, max: 90000, noNaN: true });
const near = (scale: number): number => 1e-9 * Math.max(1, scale);

describe('any refuelling', () => {
  it('keeps its discrepancy and its uncertainty when a ticket is split', () => {
    fc.assert(
      fc.property(
        mass,
        fc.double({ min: 0, max: 1, noNaN: true }),
        mass,
        mass,
        (volumeL, share, arrival, departure) => {
          const density = { observedDensityKgM3: 795, sampleTemperatureC: 20 };
          const facts = { arrivalFuelKg: arrival, departureFuelKg: departure, gaugeCapacityKg: 20000 };
          const whole = refuellingOf([ticketOf({ grossVolumeL: volumeL, ...density })], facts);
          const parts = refuellingOf(
            [volumeL * share, volumeL * (1 - share)].map((part) =>
              ticketOf({ grossVolumeL: part, ...density })
            ),
            facts
          );
          expect(Math.abs(parts.discrepancyKg - whole.discrepancyKg)).toBeLessThan(near(volumeL));
          expect(Math.abs(parts.expandedUncertaintyKg - whole.expandedUncertaintyKg)).toBeLessThan(
            near(volumeL)
          );
        }
      )
    );
  });

  it('scales: every mass times k gives the discrepancy times k and the same percentages', () => {
    const scale = fc.constantFrom(0.5, 2, 8);
    fc.assert(
      fc.property(mass, mass, mass, scale, (metered, arrival, departure, k) => {
        const single = refuellingOf([ticketOfMass(metered)], {
          arrivalFuelKg: arrival,
          departureFuelKg: departure
        });
        const scaled = refuellingOf([ticketOfMass(k * metered)], {
          arrivalFuelKg: k * arrival,
          departureFuelKg: k * departure
        });
        expect(scaled.discrepancyKg).toBe(k * single.discrepancyKg);
        expect(scaled.percentOfMetered).toBeCloseTo(single.percentOfMetered, 9);
        expect(scaled.percentOfHigher).toBeCloseTo(single.percentOfHigher, 9);
        expect(scaled.ratio).toBeCloseTo(single.ratio, 9);
      })
    );
  });

  it('is symmetric: exchanging what gauge and meter say turns the sign', () => {
    fc.assert(
      fc.property(mass, mass, mass, (metered, uplift, arrival) => {
        const one = refuellingOf([ticketOfMass(metered)], {
          arrivalFuelKg: arrival,
          departureFuelKg: arrival + uplift
        });
        const other = refuellingOf([ticketOfMass(uplift)], {
          arrivalFuelKg: arrival,
          departureFuelKg: arrival + metered
        });
        expect(Math.abs(one.discrepancyKg + other.discrepancyKg)).toBeLessThan(
          near(metered + uplift + arrival)
        );
      })
    );
  });

  it('finds departure fuel above expected by exactly the discrepancy', () => {
    fc.assert(
      fc.property(mass, mass, mass, fc.constantFrom(NaN, 0, 75), (metered, arrival, departure, extra) => {
        const result = refuellingOf([ticketOfMass(metered)], {
          arrivalFuelKg: arrival,
          departureFuelKg: departure,
          groundBurnKg: extra,
          defuelledKg: extra
        });
        const gap = departure - result.expectedDepartureKg;
        expect(Math.abs(gap - result.discrepancyKg)).toBeLessThan(near(metered + arrival + departure));
      })
    );
  });

  it('is reconcilable exactly where it has a discrepancy, and else says why not', () => {
    const any = fc.oneof(fc.constant(NaN), mass, fc.double());
    const facts = fc.record({
      arrivalFuelKg: any,
      departureFuelKg: any,
      groundBurnKg: any,
      groundMinutes: any,
      groundBurnRateKgPerMinute: any,
      defuelledKg: any
    });
    fc.assert(
      fc.property(facts, any, (given, volumeL) => {
        const ticket = ticketOf({ grossVolumeL: volumeL, observedDensityKgM3: 800, sampleTemperatureC: 20 });
        const result = refuellingOf([ticket], given);
        const isReconcilable = qualities[result.quality] !== 'notReconcilable';
        expect(Number.isFinite(result.discrepancyKg)).toBe(isReconcilable);
        if (!isReconcilable) {
          expect(result.discrepancyKg).toBeNaN();
          expect(result.reasons).not.toBe(0);
        }
      }),
      { numRuns: 300 }
    );
  });

  it('leaves nothing of the refuelling before it in a reused input and result', () => {
    const input = createRefuellingInput();
    const out = createRefuellingResult();
    const fill = (facts: Partial<RefuellingInput>, tickets: number[]) => {
      clearRefuellingInput(input);
      Object.assign(input, facts);
      for (const massKg of tickets) addTicket(input, ticketOfMass(massKg));
      reconcileRefuelling(input, defaultMethod, out);
    };
    const everything: Partial<RefuellingInput> = {
      stickFuelKg: 9,
      tanksAfterKg: 8,
      leftAfterKg: 7,
      rightAfterKg: 6
    };
    fill({ ...gauges, ...everything, gaugeCapacityKg: 20000, gaugeStepKg: 20, defuelledKg: 5 }, [
      8000,
      20,
      NaN
    ]);
    fill({ ...gauges, orderedKg: 11000, orderedBasis: totalOnBoard, groundMinutes: 5 }, [8100]);
    expect(out).toEqual(
      refuellingOf([ticketOfMass(8100)], {
        ...gauges,
        orderedKg: 11000,
        orderedBasis: totalOnBoard,
        groundMinutes: 5
      })
    );
    clearRefuellingInput(input);
    expect(input).toEqual(createRefuellingInput());
  });
});
