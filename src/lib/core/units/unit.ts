/** What is measured, each with the one unit in which the program computes. */
export const canonicalUnits = {
  volume: 'litre',
  mass: 'kilogram',
  density: 'kilogramPerCubicMetre',
  temperature: 'celsius',
  conductivity: 'picosiemensPerMetre',
  duration: 'minute',
  particulate: 'milligramPerLitre',
  water: 'partPerMillion',
  pressure: 'kilopascal'
} as const;

export type Quantity = keyof typeof canonicalUnits;

/**
 * How a unit becomes the canonical one. `linear`: canonical = (x - zero) * times / per, so that every number in
 * the table is one that a standard prints. `reciprocal`: canonical = times / (x + offset), the API scale.
 */
export type Scale =
  | { readonly kind: 'linear'; readonly zero: number; readonly times: number; readonly per: number }
  | { readonly kind: 'reciprocal'; readonly times: number; readonly offset: number };

export interface Unit {
  readonly quantity: Quantity;
  readonly symbol: string;
  /** Spellings files use, UN/CEFACT Recommendation 20 code first; case, spaces and punctuation do not matter. */
  readonly words: readonly string[];
  readonly scale: Scale;
  /** A density at 60 F, whatever the fuel's temperature was: `core/density` brings it to 15 C. */
  readonly at60F?: true;
  /** Range in which a jet fuel is written in this unit (trade practice), for recognising density by size. */
  readonly jetFuel?: readonly [minimum: number, maximum: number];
  readonly source: string;
}

/** A unit in proportion to the canonical one, or with another zero. */
export const linear = (times: number, per = 1, zero = 0): Scale => ({ kind: 'linear', zero, times, per });

export const definition = 'SI Brochure, 9th edition';
export const handbook44 = 'NIST Handbook 44 Appendix C';
