import { describe, expect, it } from 'vitest';
import {
  certificateCause,
  defaultDensityCause,
  fahrenheitCause,
  groundBurnCause,
  instrumentCause,
  sameSide,
  temperatureCause
} from '#lib/core/causes/index.ts';
import { volumeCorrectionFactor } from '#lib/core/density/index.ts';
import { seeded } from './random.ts';

const n = 400;
const ones = new Float64Array(n).fill(1);
const list = (value: (i: number) => number) => Float64Array.from({ length: n }, (_none, i) => value(i));

describe('what goes with the heat of the fuel', () => {
  // VCF of 800 kg/m3 from -20 to 40 C; at -20 it is 1.0322 (Measurement Canada, January 2016).
  const random = seeded(31);
  const temperatureC = list(() => -20 + 60 * random.uniform());
  const factor = temperatureC.map((c) => volumeCorrectionFactor(800, c, '1980'));
  const expansion = factor.map((vcf) => 100 * Math.log(vcf));
  const noise = list(() => 1.2 * random.normal());

  it.each([
    // Metered mass = volume x rho15 where volume x rho15 x VCF is true: gauge / metered is VCF.
    ['density15AsObserved', 1, (vcf: number) => vcf],
    // Net litres = gross x VCF typed as gross: metered = true x VCF, gauge / metered is 1 / VCF.
    ['netInGross', 1, (vcf: number) => 1 / vcf]
  ] as const)('is %s where each record bears it', (cause, share, ratio) => {
    const own = list((i) => 100 * Math.log(ratio(factor[i] ?? NaN)) + (noise[i] ?? NaN));
    const found = temperatureCause(expansion, own, ones);
    expect(found?.cause).toBe(cause);
    expect(Math.abs((found?.size.value ?? NaN) - share)).toBeLessThan(3 * (found?.size.error ?? NaN));
  });

  it('gives the share of the records where half of them bear it', () => {
    const own = list((i) => (i % 2) * (expansion[i] ?? NaN) + (noise[i] ?? NaN));
    const found = temperatureCause(expansion, own, ones);
    expect(found?.cause).toBe('density15AsObserved');
    expect(Math.abs((found?.size.value ?? NaN) - 0.5)).toBeLessThan(3 * (found?.size.error ?? NaN));
  });

  it('is nothing without it, with three times of it, or of fewer than 50', () => {
    expect(temperatureCause(expansion, noise, ones)).toBeNull();
    expect(
      temperatureCause(
        expansion,
        expansion.map((x, i) => 3 * x + (noise[i] ?? 0)),
        ones
      )
    ).toBeNull();
    expect(temperatureCause(expansion.slice(0, 49), expansion.slice(0, 49), ones)).toBeNull();
  });
});

describe('a constant that the gauges show too little', () => {
  const random = seeded(32);
  const mass = list(() => 2_000 + 8_000 * random.uniform());
  const noise = list(() => 60 * random.normal());
  const burnt = noise.map((value) => value - 100);

  it('is ground burn left out where hardly anyone writes it', () => {
    const found = groundBurnCause(mass, burnt, ones, 0.02);
    expect(found).toMatchObject({ cause: 'groundBurnOmitted', n });
    expect(Math.abs((found?.size.value ?? NaN) + 100)).toBeLessThan(3 * (found?.size.error ?? NaN));
  });

  it.each([
    ['it is written', burnt, 0.9],
    ['it is a share of the uplift', noise.map((value, i) => value - 0.015 * (mass[i] ?? 0)), 0.02],
    ['the gauges show more', noise.map((value) => value + 100), 0.02],
    ['there is none', noise, 0.02]
  ])('is not, where %s', (_what, own, share) => {
    expect(groundBurnCause(mass, own, ones, share)).toBeNull();
  });
});

describe('densities and temperatures of a whole place', () => {
  const random = seeded(33);
  const measured = list(() => Math.round(10 * (803 + 6 * random.normal())) / 10);

  it('hold a default in half of them or more', () => {
    expect(
      defaultDensityCause(
        measured.map((value, i) => (i % 10 < 6 ? 800 : value)),
        800
      )
    ).toMatchObject({
      cause: 'defaultDensity'
    });
    expect(defaultDensityCause(measured, 800)).toBeNull();
    expect(defaultDensityCause(new Float64Array(49).fill(800), 800)).toBeNull();
  });

  it('are Fahrenheit where many are no weather but all would be', () => {
    const celsius = list(() => 18 + 8 * random.normal());
    const found = fahrenheitCause(
      celsius.map((c) => 1.8 * c + 32),
      45,
      -45
    );
    expect(found?.cause).toBe('fahrenheitAsCelsius');
    expect(fahrenheitCause(celsius, 45, -45)).toBeNull();
    // One density typed as a temperature in four is no Fahrenheit: it would be no weather either.
    expect(
      fahrenheitCause(
        celsius.map((c, i) => (i % 3 === 0 ? 800 : c)),
        45,
        -45
      )
    ).toBeNull();
  });

  it('step from their certificate by 5 kg/m3 and stay, which no drift and no smaller step does', () => {
    const about = (level: (i: number) => number) => list((i) => level(i) + 0.7 * random.normal());
    const found = certificateCause(about((i) => (i < 170 ? 0 : 5)));
    expect(found?.cause).toBe('wrongCertificate');
    expect(Math.abs((found?.size.value ?? NaN) - 5)).toBeLessThan(4 * (found?.size.error ?? NaN));
    expect(certificateCause(about(() => 0))).toBeNull();
    expect(certificateCause(about((i) => (i < 170 ? 0 : 2)))).toBeNull();
    expect(certificateCause(about((i) => i / 40))).toBeNull();
  });
});

describe('a gauge or a meter', () => {
  const effect = { value: 0.8, error: 0.1 };
  const places = (means: readonly number[]) => means.map((mean) => ({ n: 40, mean }));

  it.each([
    ['the same side at all of four', places([0.5, 0.9, 1, 0.7]), true],
    ['nine of ten', places([0.5, 0.9, 1, 0.7, 0.4, 0.8, 0.8, 0.9, 1, -0.1]), true],
    ['as many on either side', places([0.5, 2, -1, -0.2]), false],
    ['at two places only', places([0.5, 2]), false],
    ['at places hardly met', places([0.5, 2, 1]).map(({ mean }) => ({ n: 9, mean })), false]
  ])('goes to %s', (_what, at, isNamed) => {
    expect(instrumentCause('gaugeBias', effect, 500, sameSide(effect.value, at)) !== null).toBe(isNamed);
  });

  it('is not named of an effect that is not clear, or of fewer than 50', () => {
    const seen = { places: 6, same: 6 };
    expect(instrumentCause('meterBias', { value: 0.3, error: 0.1 }, 500, seen)).toBeNull();
    expect(instrumentCause('meterBias', effect, 49, seen)).toBeNull();
  });
});
