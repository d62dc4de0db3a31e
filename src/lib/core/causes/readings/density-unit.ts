import { densityAt, density15FromDegreeApi } from '#lib/core/density/index.ts';
import { indexOf } from '#lib/core/reconciliation/index.ts';
import { densityUnitsFitting, kilogramsPerPound, toCanonical, type UnitCode } from '#lib/core/units/index.ts';
import { causeCodes, causeFigures } from '../codes.ts';
import type { CauseEvidence } from '../evidence.ts';
import { carried, isFuelDensity, isPoundsPerLitre } from '../fuel.ts';
import type { CauseOptions } from '../options.ts';
import type { CauseProposals } from '../proposals.ts';
import { asTyped } from '../reading.ts';
import { weigh } from '../weigh.ts';

const densityUnit = indexOf(causeCodes, 'densityUnit');
const poundsPerLitre = indexOf(causeCodes, 'litresTimesPoundsPerLitre');
const density = indexOf(causeFigures, 'density');

/** Units a column may have been read in, as kg/m3 in one of them. */
const readIn: readonly UnitCode[] = ['kilogramPerCubicMetre', 'kilogramPerLitre', 'poundPerUsGallon'];

/** The density at the meter for a value in another unit; degrees API refer to 60 F. */
function atMeter(
  code: UnitCode,
  value: number,
  isObserved: boolean,
  evidence: CauseEvidence,
  options: CauseOptions
): number {
  const { edition } = options;
  const { sampleTemperatureC, meterTemperatureC } = evidence;
  const meterC = Number.isFinite(meterTemperatureC) ? meterTemperatureC : sampleTemperatureC;
  if (code === 'degreeApi') {
    const fuel15 = density15FromDegreeApi(value, edition);
    return Number.isFinite(meterC) ? densityAt(fuel15, meterC, edition) : fuel15;
  }
  const kgM3 = toCanonical(code, value);
  if (isObserved) return carried(kgM3, sampleTemperatureC, meterTemperatureC, edition);
  return Number.isFinite(meterC) ? densityAt(kgM3, meterC, edition) : kgM3;
}

/** A density that is none of jet fuel in the unit it was read in, but is in another one. */
function weighTypedDensity(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  const isObserved = Number.isFinite(evidence.observedDensityKgM3);
  const typedKgM3 = isObserved ? evidence.observedDensityKgM3 : evidence.ticketDensity15KgM3;
  if (!Number.isFinite(typedKgM3) || isFuelDensity(typedKgM3)) return;
  for (const columnUnit of readIn) {
    const value = typedKgM3 / toCanonical(columnUnit, 1);
    const fitting = densityUnitsFitting(value, value).filter((code) => code !== 'relativeDensity60F');
    for (const code of fitting) {
      const reading = asTyped(out.reading, code === 'poundPerLitre' ? poundsPerLitre : densityUnit, evidence);
      const densityKgM3 = atMeter(code, value, isObserved, evidence, options);
      reading.meteredMassKg = (evidence.volumeL * densityKgM3) / 1000;
      reading.share = 1 / fitting.length;
      reading.figure = density;
      reading.figureValue = densityKgM3;
      weigh(evidence, options, out);
    }
  }
}

/** Litres times pounds per litre kept as kilograms: mass and litres of one record tell it from pounds alone. */
function weighPoundsPerLitre(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  const isMetered = isPoundsPerLitre(evidence.meteredMassKg, evidence.volumeL);
  if (!isMetered && !isPoundsPerLitre(evidence.recordedUpliftKg, evidence.volumeL)) return;
  const reading = asTyped(out.reading, poundsPerLitre, evidence);
  if (isMetered) reading.meteredMassKg *= kilogramsPerPound;
  reading.copied = 1;
  reading.signs = 1 / options.chance.impossible;
  weigh(evidence, options, out);
}

/** Densities kept in another unit than their column's. */
export function weighDensityUnits(evidence: CauseEvidence, options: CauseOptions, out: CauseProposals): void {
  weighTypedDensity(evidence, options, out);
  weighPoundsPerLitre(evidence, options, out);
}
