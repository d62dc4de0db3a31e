import type { DensityForm } from './form.ts';

/**
 * Constants of API MPMS Chapter 11.1-2004 with Addendum 1 of 2007, which is ASTM D1250-04 and IP 200-04, at
 * atmospheric pressure; base 60 F. `its90` turns a temperature of ITS-90 into IPTS-68, on which the densities
 * were measured. Read from independent public implementations.
 */
export const constants2004 = {
  baseF: 60.0068749,
  shift: 0.01374979547,
  its90Divisor: 630,
  its90: [-0.148759, -0.267408, 1.08076, 1.269056, -4.089591, -1.871251, 7.438081, -3.536296],
  bandEdgesKgM3: [770.352, 787.5195, 838.3127],
  gasoline: [192.4571, 0.2438, 0],
  transition: [1489.067, 0, -0.0018684],
  jet: [330.301, 0, 0],
  fuelOil: [103.872, 0.2701, 0],
  densityKgM3: [610.6, 1163.5],
  temperatureC: [-50, 150]
} as const;

const { baseF, shift, its90, its90Divisor, bandEdgesKgM3 } = constants2004;
const [gasolineEnd, transitionEnd, jetEnd] = bandEdgesKgM3;

type Band = readonly [inverseSquare: number, inverse: number, constant: number];

function bandOf(density60KgM3: number): Band {
  if (density60KgM3 < gasolineEnd) return constants2004.gasoline;
  if (density60KgM3 < transitionEnd) return constants2004.transition;
  if (density60KgM3 < jetEnd) return constants2004.jet;
  return constants2004.fuelOil;
}

/**
 * Degrees Fahrenheit above 60 F, on IPTS-68. The polynomial is written out, not looped, because it runs for
 * every record.
 */
function difference(temperatureC: number): number {
  const x = temperatureC / its90Divisor;
  const a = its90;
  const high = a[3] + x * (a[4] + x * (a[5] + x * (a[6] + x * a[7])));
  const correction = x * (a[0] + x * (a[1] + x * (a[2] + x * high)));
  return 1.8 * (temperatureC - correction) + 32 - baseF;
}

/** Expansion per degF at 60 F: the coefficients were fitted on IPTS-68, so the density is shifted to it first. */
function expansion(density60KgM3: number): number {
  const band = bandOf(density60KgM3);
  const k0 = band[0];
  const k1 = band[1];
  const k2 = band[2];
  const a = (shift / 2) * ((k0 / density60KgM3 + k1) / density60KgM3 + k2);
  const b = (2 * k0 + k1 * density60KgM3) / (k0 + (k1 + k2 * density60KgM3) * density60KgM3);
  // exp(power) - 1, whose cubic term (1e-17) is below what the sum with 1 can hold.
  const power = a * (1 + 0.8 * a);
  const shifted = density60KgM3 * (1 + (power * (1 + power / 2)) / (1 + a * (1 + 1.6 * a) * b));
  return (k0 / shifted + k1) / shifted + k2;
}

function expansionSlope(density60KgM3: number): number {
  const band = bandOf(density60KgM3);
  return -((2 * band[0]) / density60KgM3 + band[1]) / (density60KgM3 * density60KgM3);
}

export const form2004: DensityForm = {
  difference,
  differenceAt15C: difference(15),
  shift,
  expansion,
  expansionSlope,
  bandEdgesKgM3,
  minimumBaseKgM3: constants2004.densityKgM3[0],
  maximumBaseKgM3: constants2004.densityKgM3[1],
  minimumTemperatureC: constants2004.temperatureC[0],
  maximumTemperatureC: constants2004.temperatureC[1]
};
