import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { densityAt } from '#lib/core/density/index.ts';
import {
  defaultUncertainty,
  densitometer,
  hydrometer,
  inLine,
  type RefuellingInput,
  type TicketInput,
  uncertaintyDefaults,
  type UncertaintySettings
} from '#lib/core/reconciliation/index.ts';
import { refuellingOf, ticketOf } from './given.ts';

/** The fuel of 800 kg/m3 at 15 C whose density is 795 where it is metered. */
const temperatureC = 21.7154;
const worked: Partial<TicketInput> = {
  grossVolumeL: 15000,
  observedDensityKgM3: 795,
  sampleTemperatureC: temperatureC,
  densityMethod: 0
};

const withSettings = (changes: Partial<UncertaintySettings>) => ({
  uncertainty: { ...defaultUncertainty, ...changes }
});

describe('the worked record: JCGM 100 applied to a class 0.5 meter, computed independently', () => {
  const ticket = ticketOf(worked);
  const gauge: Partial<RefuellingInput> = { arrivalFuelKg: 3000, groundBurnKg: 0, gaugeCapacityKg: 20000 };
  const refuelled = (discrepancyKg: number, changes: Partial<UncertaintySettings> = {}) =>
    refuellingOf(
      [ticket],
      { ...gauge, departureFuelKg: 3000 + ticket.meteredMassKg + discrepancyKg },
      withSettings(changes)
    );

  it('stands on the case with one temperature, whose doubt is 2 C', () => {
    expect(densityAt(800, temperatureC, '1980')).toBeCloseTo(795, 2);
    expect(ticket.densityCase).toBe(3);
  });

  it('knows the density to 1.00 kg/m3 and the mass of 11 925 kg to 75 kg', () => {
    expect(ticket.densityUncertaintyKgM3).toBeCloseTo(1, 2);
    expect(ticket.meteredMassKg).toBe(11925);
    expect(ticket.massUncertaintyKg).toBeCloseTo(37.6, 1);
    expect(2 * ticket.massUncertaintyKg).toBeCloseTo(75, 0);
  });

  it.each([
    ['hydrometer alone', { sharedTemperatureDoubtC: 0, correlationErrorKgM3: 0 }, 0.433, 0.0005],
    ['temperature alone', { hydrometerReproducibilityKgM3: 0, correlationErrorKgM3: 0 }, 0.858, 0.005],
    ['tables alone', { hydrometerReproducibilityKgM3: 0, sharedTemperatureDoubtC: 0 }, 0.289, 0.0005]
  ])('has from the %s %j: %d kg/m3', (_part, changes, uncertainty, tolerance) => {
    const found = ticketOf(worked, withSettings(changes)).densityUncertaintyKgM3;
    expect(Math.abs(found - uncertainty)).toBeLessThan(tolerance);
  });

  it.each([
    [0, 163.3],
    [0.5, 115.5],
    [0.8, 73],
    [1, 0]
  ])('knows the gauge uplift, readings correlated by %d, to %d kg', (gaugeCorrelation, uncertainty) => {
    expect(refuelled(0, { gaugeCorrelation }).gaugeUncertaintyKg).toBeCloseTo(uncertainty, 1);
  });

  it.each([
    [150, 0.45],
    [335, 1],
    [400, 1.19],
    [800, 2.39],
    [-400, -1.19]
  ])(
    'finds %d kg at a normalised error of %d, the expanded uncertainty being 335 kg',
    (discrepancyKg, error) => {
      const result = refuelled(discrepancyKg);
      expect(result.expandedUncertaintyKg).toBeCloseTo(335, 0);
      expect(result.normalisedError).toBeCloseTo(error, 2);
    }
  );

  it('adds the rounding of two readings to a step of 100 kg as 100 squared over 6', () => {
    const plain = refuelled(0).gaugeUncertaintyKg;
    const stepped = refuellingOf([ticket], { ...gauge, departureFuelKg: 15000, gaugeStepKg: 100 });
    expect(stepped.gaugeUncertaintyKg ** 2 - plain ** 2).toBeCloseTo(10000 / 6, 6);
  });

  it('does not know its uncertainty where the capacity of the gauge is not known', () => {
    const result = refuellingOf([ticket], { arrivalFuelKg: 3000, departureFuelKg: 15000 });
    expect(result.expandedUncertaintyKg).toBeNaN();
    expect(result.normalisedError).toBeNaN();
    expect(result.discrepancyKg).toBe(75);
  });

  it('widens by half of a ground burn worked out from minutes, by half an hour of one unknown, by one percent of fuel taken out', () => {
    const plain = refuelled(0).gaugeUncertaintyKg;
    const facts = { arrivalFuelKg: 3000, departureFuelKg: 15000, gaugeCapacityKg: 20000 };
    const burnt = refuellingOf([ticket], { ...facts, groundMinutes: 60, groundBurnRateKgPerMinute: 4 });
    expect(burnt.gaugeUncertaintyKg ** 2 - plain ** 2).toBeCloseTo(120 ** 2 / 3, 6);
    const given = { groundBurnKg: 240, groundMinutes: 60, groundBurnRateKgPerMinute: 4 };
    expect(refuellingOf([ticket], { ...facts, ...given }).gaugeUncertaintyKg).toBe(plain);
    const unknown = refuellingOf([ticket], { ...facts, groundBurnRateKgPerMinute: 4 });
    expect(unknown.discrepancyKg).toBe(75);
    expect(unknown.gaugeUncertaintyKg ** 2 - plain ** 2).toBeCloseTo(120 ** 2 / 3, 6);
    const taken = refuellingOf([ticket], { ...facts, defuelledKg: 2000 });
    expect(taken.gaugeUncertaintyKg ** 2 - plain ** 2).toBeCloseTo(20 ** 2 / 3, 6);
  });
});

describe('uncertainty by density case', () => {
  const u = (facts: Partial<TicketInput>) =>
    ticketOf({ grossVolumeL: 10000, ...facts }, { usesDefaultDensity: true }).densityUncertaintyKgM3;
  const two = { sampleTemperatureC: 20, meterTemperatureC: 22 };

  it('grows as less is known', () => {
    const order = [
      u({ observedDensityKgM3: 797, densityMethod: inLine }),
      u({ observedDensityKgM3: 797, ...two, densityMethod: hydrometer }),
      u({ observedDensityKgM3: 797, sampleTemperatureC: 20, densityMethod: hydrometer }),
      u({ observedDensityKgM3: 797, densityMethod: hydrometer }),
      u({ ticketDensity15KgM3: 800 }),
      u({ certificateDensity15KgM3: 800 }),
      u({})
    ];
    expect(order).toEqual([...order].sort((a, b) => a - b));
    expect(new Set(order).size).toBe(order.length);
  });

  it('is smaller by a densitometer than by a hydrometer, and by a ticket than by a certificate', () => {
    const facts = { observedDensityKgM3: 797, ...two };
    expect(u({ ...facts, densityMethod: densitometer })).toBeLessThan(
      u({ ...facts, densityMethod: hydrometer })
    );
    expect(u({ ...facts, densityMethod: 0 })).toBeCloseTo(u({ ...facts, densityMethod: hydrometer }), 3);
    const ticket = { ticketDensity15KgM3: 800, meterTemperatureC: 20 };
    expect(u(ticket)).toBeLessThan(u({ certificateDensity15KgM3: 800, meterTemperatureC: 20 }));
    expect(u({ ticketDensity15KgM3: 800, netVolumeL: 990 })).toBeLessThan(u(ticket));
  });

  it('of a net volume holds the error of the thermometer where its density was observed', () => {
    const observed = { netVolumeL: 990, observedDensityKgM3: 797, sampleTemperatureC: 20 };
    const exact = ticketOf(observed, withSettings({ temperatureErrorC: 0 })).densityUncertaintyKgM3;
    const found = ticketOf(observed).densityUncertaintyKgM3;
    expect(found ** 2 - exact ** 2).toBeCloseTo((0.743 * 0.5) ** 2 / 3, 3);
  });

  it('of a net volume is not touched by an impossible temperature at the meter', () => {
    const net = { netVolumeL: 990, ticketDensity15KgM3: 800 };
    expect(u({ ...net, meterTemperatureC: 1e300 })).toBe(u(net));
  });

  it('is missing where there is no density', () => {
    expect(ticketOf({ grossVolumeL: 1000 }).densityUncertaintyKgM3).toBeNaN();
  });

  it('takes the error of the vehicle where it is known', () => {
    const plain = ticketOf(worked).massUncertaintyKg;
    expect(ticketOf({ ...worked, meterErrorPercent: 0.3 }).massUncertaintyKg).toBeLessThan(plain);
    expect(ticketOf({ ...worked, meterErrorPercent: 0.5 }).massUncertaintyKg).toBe(plain);
  });

  it('never shrinks when a doubt grows', () => {
    const keys = fc.constantFrom(
      'meterErrorPercent' as const,
      'hydrometerReproducibilityKgM3' as const,
      'sharedTemperatureDoubtC' as const,
      'correlationErrorKgM3' as const
    );
    fc.assert(
      fc.property(
        keys,
        fc.double({ min: 0, max: 5, noNaN: true }),
        fc.double({ min: 0, max: 5, noNaN: true }),
        (key, a, b) => {
          const small = ticketOf(worked, withSettings({ [key]: Math.min(a, b) })).massUncertaintyKg;
          expect(
            ticketOf(worked, withSettings({ [key]: Math.max(a, b) })).massUncertaintyKg
          ).toBeGreaterThanOrEqual(small);
        }
      )
    );
  });
});

describe('the defaults', () => {
  it('say for each setting what it rests on', () => {
    for (const [key, { value, basis, source }] of Object.entries(uncertaintyDefaults)) {
      expect([key, Number.isFinite(value), source !== '']).toEqual([key, true, true]);
      expect(['published', 'fromMemory', 'commonPractice']).toContain(basis);
    }
    expect(defaultUncertainty.meterErrorPercent).toBe(uncertaintyDefaults.meterErrorPercent.value);
    expect(Object.keys(defaultUncertainty)).toEqual(Object.keys(uncertaintyDefaults));
  });
});
