import { type DensityForm, factorOf } from './form.ts';

const residualKgM3 = 1e-9;
/**
 * A root counts only this far from a band edge. The factor jumps there, in proportion to the distance from the base
 * (0.08 kg/m3 at 75 C), so an observed density can have two roots or none. Bisection then decides, always alike.
 */
const edgeDistanceKgM3 = (difference: number): number => 0.02 + 0.0015 * Math.abs(difference);
const steps = 6;

function isNearEdge(form: DensityForm, densityKgM3: number, difference: number): boolean {
  const distance = edgeDistanceKgM3(difference);
  const edges = form.bandEdgesKgM3;
  for (let i = 0; i < edges.length; i++) {
    if (Math.abs(densityKgM3 - (edges[i] ?? NaN)) < distance) return true;
  }
  return false;
}

/** The density at the base by halving [0.7, 1.3] of the observed one 60 times: slow, certain, the reference. */
export function baseDensityByBisection(form: DensityForm, observedKgM3: number, difference: number): number {
  let low = 0.7 * observedKgM3;
  let high = 1.3 * observedKgM3;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (middle * factorOf(form, middle, difference) < observedKgM3) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * The density at the base of the form whose density at `difference` is the observed one, kg/m3. A few Newton
 * steps, accepted when the residual is below 1e-9 kg/m3 and no band edge is near, else bisection. The caller
 * checks the range.
 */
export function baseDensity(form: DensityForm, observedKgM3: number, difference: number): number {
  let density = observedKgM3 * (1 + form.expansion(observedKgM3) * difference);
  for (let i = 0; i < steps; i++) {
    const expansion = form.expansion(density);
    const factor = Math.exp(-expansion * difference * (1 + 0.8 * expansion * (difference + form.shift)));
    const residual = density * factor - observedKgM3;
    if (Math.abs(residual) < residualKgM3) {
      if (isNearEdge(form, density, difference)) break;
      return density;
    }
    const slope =
      1 -
      density *
        form.expansionSlope(density) *
        difference *
        (1 + 0.8 * expansion * (2 * difference + form.shift));
    density -= residual / (factor * slope);
  }
  return baseDensityByBisection(form, observedKgM3, difference);
}
