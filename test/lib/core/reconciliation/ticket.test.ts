import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { density15, densityAt, hydrometerCorrected } from '#lib/core/density/index.ts';
import {
  codesIn,
  createTicketInput,
  createTicketResult,
  clearTicketInput,
  defaultMethod,
  densitometer,
  densityCases,
  hydrometer,
  inLine,
  marks,
  qualities,
  reasons,
  reconcileTicket,
  type DensityCase,
  type Quality,
  type Reason,
  type TicketInput
} from '#lib/core/reconciliation/index.ts';
import { fromCanonical, toCanonical, unitCodes } from '#lib/core/units/index.ts';
import { ticketOf } from './given.ts';

const sixtyF = 140 / 9;
const at = (rho15: number, temperatureC: number) => densityAt(rho15, temperatureC, '1980');
const observed800 = 800;
const base = density15(800, 20, '1980');

describe('the density case, by what the ticket holds', () => {
  it.each<[DensityCase, Quality, Partial<TicketInput>, number]>([
    ['inLineAtMeter', 'measured', { observedDensityKgM3: 800, densityMethod: inLine }, 8000],
    [
      'inLineAtMeter',
      'measured',
      { observedDensityKgM3: 800, densityMethod: inLine, sampleTemperatureC: 20 },
      8000
    ],
    [
      'observedAndMeterTemperature',
      'measured',
      { observedDensityKgM3: observed800, sampleTemperatureC: 20, meterTemperatureC: 10 },
      10 * at(base, 10)
    ],
    [
      'observedAndMeterTemperature',
      'measured',
      { observedDensityKgM3: observed800, sampleTemperatureC: 20, meterTemperatureC: 20 },
      8000
    ],
    ['observedAtOneTemperature', 'measured', { observedDensityKgM3: 800, sampleTemperatureC: 20 }, 8000],
    ['observedAtOneTemperature', 'measured', { observedDensityKgM3: 800, meterTemperatureC: 20 }, 8000],
    [
      'observedAtOneTemperature',
      'measured',
      { observedDensityKgM3: 800, sampleTemperatureC: 20, ticketDensity15KgM3: 790, netVolumeL: 9900 },
      8000
    ],
    ['observedWithoutTemperature', 'estimated', { observedDensityKgM3: 800 }, 8000],
    [
      'observedWithoutTemperature',
      'estimated',
      { observedDensityKgM3: 800, certificateDensity15KgM3: 810 },
      8000
    ],
    [
      'netVolumeAndDensity15',
      'measured',
      { observedDensityKgM3: 790, netVolumeL: 9900, certificateDensity15KgM3: 800 },
      7920
    ],
    [
      'netVolumeAndDensity15',
      'measured',
      { netVolumeL: 9900, ticketDensity15KgM3: 800, meterTemperatureC: 20 },
      7920
    ],
    [
      'density15AndMeterTemperature',
      'measured',
      { ticketDensity15KgM3: 800, meterTemperatureC: 30 },
      10 * at(800, 30)
    ],
    [
      'density15AndMeterTemperature',
      'measured',
      { ticketDensity15KgM3: 800, certificateDensity15KgM3: 820, meterTemperatureC: 30 },
      10 * at(800, 30)
    ],
    [
      'density15AndMeterTemperature',
      'measured',
      { certificateDensity15KgM3: 800, meterTemperatureC: 30 },
      10 * at(800, 30)
    ],
    ['density15WithoutTemperature', 'estimated', { certificateDensity15KgM3: 800 }, 8000],
    ['none', 'notReconcilable', {}, NaN],
    ['none', 'notReconcilable', { sampleTemperatureC: 20, meterTemperatureC: 20 }, NaN]
  ])('is %s, %s, for %j', (densityCase, quality, facts, massKg) => {
    const result = ticketOf({ grossVolumeL: 10000, ...facts });
    expect(densityCases[result.densityCase]).toBe(densityCase);
    expect(qualities[result.quality]).toBe(quality);
    if (Number.isNaN(massKg)) expect(result.meteredMassKg).toBeNaN();
    else expect(result.meteredMassKg).toBeCloseTo(massKg, 9);
  });

  it('is the default density only where the method allows it', () => {
    expect(qualities[ticketOf({ grossVolumeL: 1000 }).quality]).toBe('notReconcilable');
    const result = ticketOf({ grossVolumeL: 1000 }, { usesDefaultDensity: true });
    expect(densityCases[result.densityCase]).toBe('defaultDensity');
    expect(qualities[result.quality]).toBe('estimated');
    expect(result.meteredMassKg).toBe(800);
    expect(codesIn(reasons, result.reasons)).toEqual(['defaultDensity']);
  });

  it('stands in the list at the number it is known by', () => {
    expect(densityCases.indexOf('inLineAtMeter')).toBe(1);
    expect(densityCases.indexOf('netVolumeAndDensity15')).toBe(6);
    expect(densityCases.indexOf('defaultDensity')).toBe(8);
  });
});

describe('a hydrometer reading', () => {
  const facts = { grossVolumeL: 1000, observedDensityKgM3: 790, sampleTemperatureC: 30 };

  it.each([
    [hydrometer, false, true],
    [densitometer, false, false],
    [densitometer, true, false],
    [inLine, true, false],
    [0, false, false],
    [0, true, true]
  ])(
    'of instrument %d is corrected for glass where that is meant (not stated counts as glass: %s)',
    (method, counts, glass) => {
      const result = ticketOf({ ...facts, densityMethod: method }, { hydrometerWhenNotStated: counts });
      const expected = glass ? hydrometerCorrected(790, 30) : 790;
      expect(result.densityAtMeterKgM3).toBe(expected);
      expect(codesIn(marks, result.marks).includes('glassCorrected')).toBe(glass);
    }
  );

  it('is left alone where no temperature is known', () => {
    const result = ticketOf({ grossVolumeL: 1000, observedDensityKgM3: 790, densityMethod: hydrometer });
    expect(result.densityAtMeterKgM3).toBe(790);
    expect(codesIn(marks, result.marks)).not.toContain('glassCorrected');
  });
});

describe('the volume', () => {
  const density = { observedDensityKgM3: 800, sampleTemperatureC: 15 };

  it.each<[string, Partial<TicketInput>, number, Quality, Reason[]]>([
    ['gross', { grossVolumeL: 1000 }, 800, 'measured', []],
    ['gross of 0', { grossVolumeL: 0 }, 0, 'measured', []],
    ['meter stop less start', { meterStartL: 5000, meterStopL: 6000 }, 800, 'measured', []],
    ['net', { netVolumeL: 1000 }, 800, 'measured', []],
    [
      'meter past zero with a known register',
      { meterStartL: 999500, meterStopL: 500, meterRegisterL: 1e6 },
      800,
      'estimated',
      ['meterRollOver']
    ],
    [
      'meter past zero',
      { meterStartL: 999500, meterStopL: 500 },
      NaN,
      'notReconcilable',
      ['meterRunsBackwards']
    ],
    [
      'start and stop swapped with a known register',
      { meterStartL: 60000, meterStopL: 59000, meterRegisterL: 1e6 },
      NaN,
      'notReconcilable',
      ['meterRunsBackwards']
    ],
    ['negative gross', { grossVolumeL: -1000 }, NaN, 'notReconcilable', ['volumeNegative']],
    ['negative net', { netVolumeL: -1000 }, NaN, 'notReconcilable', ['volumeNegative']],
    [
      'negative net beside gross',
      { grossVolumeL: 1000, netVolumeL: -990 },
      NaN,
      'notReconcilable',
      ['volumeNegative']
    ],
    ['gross beyond any register', { grossVolumeL: 2e9 }, NaN, 'notReconcilable', ['amountOutsideRange']],
    ['one meter reading', { meterStopL: 1000 }, NaN, 'notReconcilable', ['volumeMissing']],
    ['none', {}, NaN, 'notReconcilable', ['volumeMissing']],
    ['infinite', { grossVolumeL: Infinity }, NaN, 'notReconcilable', ['amountOutsideRange']]
  ])('from %s', (_what, facts, massKg, quality, why) => {
    const result = ticketOf({ ...density, ...facts });
    expect(result.meteredMassKg).toBe(massKg);
    expect(qualities[result.quality]).toBe(quality);
    expect(codesIn(reasons, result.reasons)).toEqual(why);
  });

  it('past zero is proposed by the next power of ten while the register is not known', () => {
    expect(ticketOf({ meterStartL: 999500, meterStopL: 500 }).proposedVolumeL).toBe(1000);
    expect(ticketOf({ meterStartL: 1000, meterStopL: 500 }).proposedVolumeL).toBe(9500);
    for (const meterStartL of [60000000, 1e300, Infinity]) {
      expect(ticketOf({ meterStartL, meterStopL: 500 }).proposedVolumeL).toBeNaN();
    }
  });

  it.each([
    [1000, 5000, 6000, 0, false],
    [1000, 5000, 6001, -1, false],
    [1000, 5000, 6010, -10, true],
    [20000, 5000, 25015, -15, false],
    [1000, 6000, 5000, NaN, true],
    [1000, 5000, NaN, NaN, false]
  ])(
    'of %d L beside a meter from %d to %d differs by %d',
    (grossVolumeL, meterStartL, meterStopL, differs, marked) => {
      const result = ticketOf({ grossVolumeL, meterStartL, meterStopL });
      expect(result.meterDifferenceL).toBe(differs);
      expect(codesIn(marks, result.marks).includes('meterDisagreesWithVolume')).toBe(marked);
    }
  );

  it('net beside gross is compared at its base temperature', () => {
    const facts = { grossVolumeL: 10000, observedDensityKgM3: at(800, 30), sampleTemperatureC: 30 };
    const factor = at(800, 30) / 800;
    const good = ticketOf({ ...facts, netVolumeL: 10000 * factor });
    expect(good.netDifferenceL).toBeCloseTo(0, 6);
    expect(codesIn(marks, good.marks)).not.toContain('netDisagreesWithGross');
    const copied = ticketOf({ ...facts, netVolumeL: 10000 });
    expect(copied.netDifferenceL).toBeCloseTo(10000 * (1 - factor), 6);
    expect(codesIn(marks, copied.marks)).toContain('netDisagreesWithGross');
    const at60F = ticketOf({
      ...facts,
      netVolumeL: (10000 * at(800, 30)) / at(800, sixtyF),
      netBaseTemperatureC: sixtyF
    });
    expect(at60F.netDifferenceL).toBeCloseTo(0, 6);
  });

  it('net alone is weighed at the density of its base temperature, 15 C where none is stated', () => {
    const facts = { netVolumeL: 1000, ticketDensity15KgM3: 800 };
    expect(ticketOf({ ...facts, netBaseTemperatureC: sixtyF }).meteredMassKg).toBeCloseTo(at(800, sixtyF), 9);
    expect(codesIn(marks, ticketOf(facts).marks)).toContain('netBaseAssumed');
    expect(codesIn(marks, ticketOf({ ...facts, netBaseTemperatureC: 15 }).marks)).not.toContain(
      'netBaseAssumed'
    );
    expect(codesIn(reasons, ticketOf({ ...facts, netBaseTemperatureC: 300 }).reasons)).toEqual([
      'temperatureOutsideRange'
    ]);
  });

  it('net alone uses the observed density at 15 C, and nothing where that is not known', () => {
    const result = ticketOf({ netVolumeL: 1000, observedDensityKgM3: 800, sampleTemperatureC: 20 });
    expect(densityCases[result.densityCase]).toBe('netVolumeAndDensity15');
    expect(result.meteredMassKg).toBeCloseTo(base, 9);
    const cold = ticketOf({ netVolumeL: 1000, observedDensityKgM3: 800 });
    expect(cold.meteredMassKg).toBeNaN();
    expect(codesIn(reasons, cold.reasons)).toEqual(['density15Missing', 'temperatureMissing']);
    expect(ticketOf({ netVolumeL: 1000 }, { usesDefaultDensity: true }).meteredMassKg).toBe(800);
  });
});

describe('impossible and unlikely values', () => {
  it.each<[Partial<TicketInput>, Reason]>([
    [{ observedDensityKgM3: 0.8 }, 'densityOutsideRange'],
    [{ observedDensityKgM3: 0.8, sampleTemperatureC: 20 }, 'densityOutsideRange'],
    [{ observedDensityKgM3: 0, densityMethod: inLine }, 'densityOutsideRange'],
    [{ observedDensityKgM3: -800, sampleTemperatureC: 20 }, 'densityOutsideRange'],
    [{ ticketDensity15KgM3: 45, meterTemperatureC: 20 }, 'densityOutsideRange'],
    [{ ticketDensity15KgM3: 6.7, netVolumeL: 990 }, 'densityOutsideRange'],
    [{ observedDensityKgM3: 800, sampleTemperatureC: 200 }, 'temperatureOutsideRange'],
    [{ observedDensityKgM3: 800, sampleTemperatureC: 20, meterTemperatureC: 200 }, 'temperatureOutsideRange'],
    [{ ticketDensity15KgM3: 800, meterTemperatureC: -300 }, 'temperatureOutsideRange']
  ])('%j is refused as %s and gives no mass', (facts, reason) => {
    const result = ticketOf({ grossVolumeL: 1000, ...facts });
    expect(result.meteredMassKg).toBeNaN();
    expect(result.density15KgM3).toBeNaN();
    expect(qualities[result.quality]).toBe('notReconcilable');
    expect(codesIn(reasons, result.reasons)).toEqual([reason]);
  });

  it.each([
    [{ observedDensityKgM3: 740, sampleTemperatureC: 15 }, 'densityImplausible'],
    [{ observedDensityKgM3: 871, sampleTemperatureC: 15 }, 'densityImplausible'],
    [{ ticketDensity15KgM3: 774, meterTemperatureC: 15 }, 'densityImplausible'],
    [{ observedDensityKgM3: 800, sampleTemperatureC: 77 }, 'temperatureImplausible'],
    [{ ticketDensity15KgM3: 800, meterTemperatureC: 77 }, 'temperatureImplausible'],
    [{ observedDensityKgM3: 800, sampleTemperatureC: 20 }, 'densityLooksLikeDefault']
  ] as const)('%j is computed and marked %s', (facts, mark) => {
    const result = ticketOf({ grossVolumeL: 1000, ...facts });
    expect(result.meteredMassKg).toBeGreaterThan(0);
    expect(codesIn(marks, result.marks)).toContain(mark);
    const plain = ticketOf({ grossVolumeL: 1000, observedDensityKgM3: 801, sampleTemperatureC: 20 });
    expect(codesIn(marks, plain.marks)).not.toContain(mark);
  });
});

describe('two independent densities', () => {
  it('are compared at 15 C', () => {
    const result = ticketOf({
      observedDensityKgM3: 800,
      sampleTemperatureC: 20,
      ticketDensity15KgM3: 802,
      certificateDensity15KgM3: 801
    });
    expect(result.densityDifferenceKgM3).toBeCloseTo(base - 802, 9);
    expect(result.certificateDifferenceKgM3).toBeCloseTo(base - 801, 9);
  });

  it('are the ticket and the certificate where none was observed', () => {
    const result = ticketOf({
      ticketDensity15KgM3: 802,
      certificateDensity15KgM3: 801,
      meterTemperatureC: 20
    });
    expect(result.densityDifferenceKgM3).toBeNaN();
    expect(result.certificateDifferenceKgM3).toBe(1);
  });

  it('never are a certificate and itself', () => {
    const result = ticketOf({ certificateDensity15KgM3: 801, meterTemperatureC: 20 });
    expect(result.certificateDifferenceKgM3).toBeNaN();
    expect(codesIn(marks, result.marks)).toContain('certificateDensityUsed');
  });

  it('need a temperature', () => {
    const result = ticketOf({ observedDensityKgM3: 800, ticketDensity15KgM3: 802 });
    expect(result.densityDifferenceKgM3).toBeNaN();
  });

  it('are found even where the volume is missing, for the density page', () => {
    const result = ticketOf({
      observedDensityKgM3: 800,
      sampleTemperatureC: 20,
      certificateDensity15KgM3: 801
    });
    expect(result.density15KgM3).toBeCloseTo(803.704, 3);
    expect(result.certificateDifferenceKgM3).toBeCloseTo(2.704, 3);
  });
});

const anyNumber = fc.oneof(
  fc.constant(NaN),
  fc.double({ min: 0, max: 30000, noNaN: true }),
  fc.double({ min: 700, max: 900, noNaN: true }),
  fc.double({ min: -60, max: 60, noNaN: true }),
  fc.double()
);
const anyTicket = fc.record({
  grossVolumeL: anyNumber,
  netVolumeL: anyNumber,
  netBaseTemperatureC: anyNumber,
  meterStartL: anyNumber,
  meterStopL: anyNumber,
  meterRegisterL: anyNumber,
  observedDensityKgM3: anyNumber,
  densityMethod: fc.integer({ min: 0, max: 3 }),
  sampleTemperatureC: anyNumber,
  meterTemperatureC: anyNumber,
  ticketDensity15KgM3: anyNumber,
  certificateDensity15KgM3: anyNumber,
  meterErrorPercent: fc.constantFrom(NaN, 0.3)
});

describe('any ticket', () => {
  it('has a mass exactly where it is reconcilable, at a physical density, and else says why not', () => {
    fc.assert(
      fc.property(anyTicket, fc.boolean(), (facts, usesDefaultDensity) => {
        const result = ticketOf(facts, { usesDefaultDensity });
        const quality = qualities[result.quality];
        expect(quality === 'notReconcilable').toBe(Number.isNaN(result.meteredMassKg));
        if (quality === 'measured') expect(result.reasons).toBe(0);
        else expect(result.reasons).not.toBe(0);
        if (quality !== 'notReconcilable') {
          expect(result.meteredMassKg).toBeGreaterThanOrEqual(0);
          expect(result.massUncertaintyKg).toBeGreaterThanOrEqual(0);
          expect(result.densityCase).toBeGreaterThan(0);
        }
      }),
      { numRuns: 500 }
    );
  });

  it('leaves nothing of the ticket before it in a reused input and result', () => {
    const input = createTicketInput();
    const out = createTicketResult();
    fc.assert(
      fc.property(anyTicket, anyTicket, (first, second) => {
        Object.assign(input, first);
        reconcileTicket(input, defaultMethod, out);
        clearTicketInput(input);
        expect(input).toEqual(createTicketInput());
        Object.assign(input, second);
        reconcileTicket(input, defaultMethod, out);
        expect(out).toEqual(ticketOf(second));
      })
    );
  });

  it('weighs the same within 1e-9 whatever unit it was entered in', () => {
    const volumeUnit = fc.constantFrom(...unitCodes('volume'));
    const densityUnit = fc.constantFrom(...unitCodes('density'));
    const temperatureUnit = fc.constantFrom(...unitCodes('temperature'));
    fc.assert(
      fc.property(
        volumeUnit,
        densityUnit,
        temperatureUnit,
        fc.double({ min: 100, max: 90000, noNaN: true }),
        fc.double({ min: 780, max: 830, noNaN: true }),
        fc.double({ min: -10, max: 40, noNaN: true }),
        (ofVolume, ofDensity, ofTemperature, grossVolumeL, observedDensityKgM3, sampleTemperatureC) => {
          const facts = { grossVolumeL, observedDensityKgM3, sampleTemperatureC };
          const entered = {
            grossVolumeL: toCanonical(ofVolume, fromCanonical(ofVolume, grossVolumeL)),
            observedDensityKgM3: toCanonical(ofDensity, fromCanonical(ofDensity, observedDensityKgM3)),
            sampleTemperatureC: toCanonical(ofTemperature, fromCanonical(ofTemperature, sampleTemperatureC))
          };
          const meteredMassKg = ticketOf(facts).meteredMassKg;
          expect(Math.abs(ticketOf(entered).meteredMassKg - meteredMassKg)).toBeLessThan(
            1e-9 * meteredMassKg
          );
        }
      )
    );
  });

  it('weighs twice as much at twice the volume', () => {
    fc.assert(
      fc.property(anyTicket, fc.double({ min: 1, max: 1e5, noNaN: true }), (facts, volumeL) => {
        const single = ticketOf({ ...facts, grossVolumeL: volumeL, netVolumeL: NaN });
        const double = ticketOf({ ...facts, grossVolumeL: 2 * volumeL, netVolumeL: NaN });
        expect(double.meteredMassKg).toBe(2 * single.meteredMassKg);
        expect(double.massUncertaintyKg).toBe(2 * single.massUncertaintyKg);
      })
    );
  });
});
