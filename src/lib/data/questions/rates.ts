import { notJudged, outside } from '#lib/core/reconciliation/index.ts';
import { limitCheckBits, type Verdicts } from '#lib/data/ledger/index.ts';
import type { QuestionContext } from './context.ts';

/** What a refuelling counts as, as bits of one byte. */
export const rateBits = {
  judged: 1,
  outside: 2,
  withinUncertainty: 4,
  slip: 8,
  measured: 16,
  metered: 32
} as const;

/** What each row counts as in rates, bias and scatter, worked out once for all filters. */
export interface Rates {
  /** Bits of `rateBits`. */
  readonly flags: Uint8Array;
  /** Discrepancy in per cent of metered mass, where `measured` is set. */
  readonly percent: Float64Array;
}

/** As long as the verdicts they rest on: what only gives records new addresses changes no rate. */
const kept = new WeakMap<Verdicts, Rates>();

export function ratesOf(context: QuestionContext): Rates {
  const known = kept.get(context.ledger.verdicts);
  if (known !== undefined) return known;
  const { ledger } = context;
  const { computed, verdicts, rowCount } = ledger;
  const flags = new Uint8Array(rowCount);
  const percent = new Float64Array(rowCount);
  for (let row = 0; row < rowCount; row++) {
    const mass = computed.refuellingMassKg[row] ?? NaN;
    const discrepancy = computed.discrepancyKg[row] ?? NaN;
    const verdict = verdicts.verdict[row] ?? notJudged;
    const isSlip = ((verdicts.checks[row] ?? 0) & limitCheckBits.suspectedSlip) !== 0;
    let bits = mass > 0 ? rateBits.metered : 0;
    if (isSlip) bits |= rateBits.slip;
    if (verdict !== notJudged) bits |= rateBits.judged;
    if (verdict === outside) bits |= rateBits.outside;
    if (verdicts.withinUncertainty[row] === 1) bits |= rateBits.withinUncertainty;
    if (!isSlip && mass > 0 && !Number.isNaN(discrepancy) && ledger.counts(row)) {
      bits |= rateBits.measured;
      percent[row] = (100 * discrepancy) / mass;
    }
    flags[row] = bits;
  }
  const rates = { flags, percent };
  kept.set(verdicts, rates);
  return rates;
}
