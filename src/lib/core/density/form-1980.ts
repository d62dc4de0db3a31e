import type { DensityForm } from './form.ts';

/**
 * Constants of Tables 53B and 54B, API Standard 2540 / ASTM D1250-80 / IP 200. They agree across several
 * independent public implementations; 594.5418 and 2680.3206 are 1.8 times the 60 F constants. The tables were
 * issued from -18 C; Measurement Canada prints the same form down to -40 C (jet and aviation gasoline tables,
 * January 2016), so that is the lower limit here. Limits of density: secondary source.
 */
export const constants1980 = {
  baseC: 15,
  bandEdgesKgM3: [770.5, 787.5, 839],
  gasoline: [346.4228, 0.4388],
  transition: [2680.3206, -0.00336312],
  jet: 594.5418,
  fuelOil: [186.9696, 0.4862],
  densityKgM3: [653, 1075],
  temperatureC: [-40, 90]
} as const;

const { baseC, bandEdgesKgM3, gasoline, transition, jet, fuelOil } = constants1980;
const [gasolineEnd, transitionEnd, jetEnd] = bandEdgesKgM3;

/** Expansion per degC at 15 C. */
function expansion(density15KgM3: number): number {
  if (density15KgM3 < gasolineEnd) return (gasoline[0] / density15KgM3 + gasoline[1]) / density15KgM3;
  if (density15KgM3 < transitionEnd) return transition[0] / (density15KgM3 * density15KgM3) + transition[1];
  if (density15KgM3 < jetEnd) return jet / (density15KgM3 * density15KgM3);
  return (fuelOil[0] / density15KgM3 + fuelOil[1]) / density15KgM3;
}

function expansionSlope(density15KgM3: number): number {
  const square = density15KgM3 * density15KgM3;
  if (density15KgM3 < gasolineEnd) return -((2 * gasoline[0]) / density15KgM3 + gasoline[1]) / square;
  if (density15KgM3 < transitionEnd) return (-2 * transition[0]) / (square * density15KgM3);
  if (density15KgM3 < jetEnd) return (-2 * jet) / (square * density15KgM3);
  return -((2 * fuelOil[0]) / density15KgM3 + fuelOil[1]) / square;
}

export const form1980: DensityForm = {
  difference: (temperatureC) => temperatureC - baseC,
  differenceAt15C: 0,
  shift: 0,
  expansion,
  expansionSlope,
  bandEdgesKgM3,
  minimumBaseKgM3: constants1980.densityKgM3[0],
  maximumBaseKgM3: constants1980.densityKgM3[1],
  minimumTemperatureC: constants1980.temperatureC[0],
  maximumTemperatureC: constants1980.temperatureC[1]
};
