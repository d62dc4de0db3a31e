import { causeCodes, causeFacts, type CauseCode } from '#lib/core/causes/index.ts';
import { constantsText, editionTitles, gradeCodes, gradeLimits } from '#lib/core/density/index.ts';
import { uncertaintyDefaults, type UncertaintySettings } from '#lib/core/reconciliation/index.ts';
import { toCanonical, unitCodes, unitOf, canonicalUnits } from '#lib/core/units/index.ts';
import type { QuestionContext } from './context.ts';
import { methodChecks, type MethodCheck } from './method-checks.ts';

/** What the page of the method shows: the very constants and settings that the numbers rest on. */
export interface MethodAnswer {
  /** Tables in force. */
  readonly edition: string;
  readonly checks: readonly MethodCheck[];
  /** The constants every density rests on, as they are hashed into the fingerprint of the method. */
  readonly constants: readonly {
    /** An edition, or what the constant belongs to. */
    readonly part: string;
    readonly name: string;
    readonly value: string;
  }[];
  readonly units: readonly {
    readonly symbol: string;
    readonly quantity: string;
    readonly canonical: string;
    /** What one of it is in the canonical unit; NaN where the scale is no plain factor. */
    readonly factor: number;
    /** By definition to the last digit; else the last digits are rounded or measured. */
    readonly exact: boolean;
    readonly source: string;
  }[];
  readonly uncertainties: readonly {
    readonly key: keyof UncertaintySettings;
    readonly value: number;
    /** What it is before anyone changes it. */
    readonly standard: number;
    readonly basis: string;
    readonly source: string;
  }[];
  readonly grades: readonly {
    readonly title: string;
    readonly minimumKgM3: number;
    readonly maximumKgM3: number;
    readonly atC: number;
    readonly confidence: string;
    readonly source: string;
  }[];
  readonly causes: readonly { readonly code: CauseCode; readonly kind: string; readonly source: string }[];
}

/** The constants as rows, from the very text that is hashed: one that is added appears by itself. */
function constantRows(): MethodAnswer['constants'] {
  const parsed: unknown = JSON.parse(constantsText);
  const parts: [string, unknown][] = Object.entries(parsed ?? {});
  return parts.flatMap(([part, of]) => {
    if (typeof of !== 'object' || of === null) return [{ part, name: part, value: String(of) }];
    const entries: [string, unknown][] = Object.entries(of);
    return entries.map(([name, value]) => ({
      part,
      name,
      value: Array.isArray(value) ? value.join(', ') : String(value)
    }));
  });
}

/** True where a unit is in proportion to the canonical one. */
function isFactor(code: Parameters<typeof unitOf>[0]): boolean {
  const { scale } = unitOf(code);
  return scale.kind === 'linear' && scale.zero === 0;
}

/** The method as it is in force; it is asked with nothing. */
export function method(context: QuestionContext, _asked: Readonly<Record<string, never>>): MethodAnswer {
  const { arithmetic } = context.settings.method;
  return {
    edition: editionTitles[arithmetic.edition],
    checks: methodChecks(),
    constants: constantRows(),
    units: unitCodes().map((code) => {
      const { symbol, quantity, source } = unitOf(code);
      return {
        symbol,
        quantity,
        canonical: unitOf(canonicalUnits[quantity]).symbol,
        factor: isFactor(code) ? toCanonical(code, 1) : NaN,
        exact: unitOf(code).at60F !== true && code !== 'poundPerSquareInch',
        source
      };
    }),
    uncertainties: (Object.keys(uncertaintyDefaults) as (keyof UncertaintySettings)[]).map((key) => ({
      key,
      value: arithmetic.uncertainty[key],
      standard: uncertaintyDefaults[key].value,
      basis: uncertaintyDefaults[key].basis,
      source: uncertaintyDefaults[key].source
    })),
    grades: gradeCodes.map((code) => {
      const { title, minimumKgM3, maximumKgM3, limitsAtC, confidence, source } = gradeLimits[code];
      return { title, minimumKgM3, maximumKgM3, atC: limitsAtC, confidence, source };
    }),
    causes: causeCodes.map((code) => ({ code, kind: causeFacts[code].kind, source: causeFacts[code].source }))
  };
}
