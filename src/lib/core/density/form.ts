/**
 * One published way of carrying density between temperatures, as data and three small functions. Both editions
 * share the shape: at a base temperature the density decides the expansion coefficient a, and
 * factor = exp(-a * difference * (1 + 0.8 * a * (difference + shift))).
 */
export interface DensityForm {
  /** Distance of a temperature (degC) from the base of the form, in the form's own scale. */
  readonly difference: (temperatureC: number) => number;
  /** The distance of 15 C from the base: 0 where 15 C is the base. */
  readonly differenceAt15C: number;
  readonly shift: number;
  /** Expansion coefficient at the base for a density at the base, kg/m3. */
  readonly expansion: (baseDensityKgM3: number) => number;
  /** Its derivative by density, for the solver's steps only. */
  readonly expansionSlope: (baseDensityKgM3: number) => number;
  /** Densities at the base where one product band meets the next and the factor jumps. */
  readonly bandEdgesKgM3: readonly number[];
  readonly minimumBaseKgM3: number;
  readonly maximumBaseKgM3: number;
  readonly minimumTemperatureC: number;
  readonly maximumTemperatureC: number;
}

/** Volume at the base over volume at the difference, for a density at the base of the form. */
export function factorOf(form: DensityForm, baseDensityKgM3: number, difference: number): number {
  const expansion = form.expansion(baseDensityKgM3);
  return Math.exp(-expansion * difference * (1 + 0.8 * expansion * (difference + form.shift)));
}
