export { addressFrom, addressText, type RecordAddress } from './address.ts';
export type { Computed } from './computed.ts';
export type { AsideReason } from './duplicates.ts';
export type { RecordFilter } from './filter.ts';
export {
  byMonth,
  byName,
  bySize,
  byWeek,
  monthName,
  monthNumber,
  weekName,
  weekNumber,
  weekStart,
  sizeBandEdgesKg,
  sizeBandName,
  type Grouping,
  type GroupKey
} from './grouping.ts';
export { Ledger } from './ledger.ts';
export { limitCheckBits, limitChecks, type LimitCheck } from './limit-checks.ts';
export { mergedFields, writtenReader } from './merge-names.ts';
export { lineKey, linesKey, type LedgerFile } from './rows.ts';
export { select, type Selection } from './select.ts';
// What a fingerprint of the method hashes: the constants every mass rests on.
export { constantsText as methodConstants } from '#lib/core/density/index.ts';
export type { Verdicts } from './verdicts.ts';
export { computedReader, sourceKeys, sourceReader, type RecordValue, type ValueReader } from './values.ts';
export { EvidenceReader } from './cause-evidence.ts';
export { causeOptions, chainOf, lacksGauges, type FoundCauses } from './find-causes.ts';
export { Surroundings } from './surroundings.ts';
export { InputReader } from './inputs.ts';
