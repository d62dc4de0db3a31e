import type { TimeEvidence } from '../evidence/time-evidence.ts';
import type { TimeReading } from '../layout.ts';
import { statedOrder } from '../times/index.ts';
import { wordedReading } from './asking.ts';
import { settleDates } from './dates.ts';
import { askClock } from './fields.ts';
import { timeFinding } from './findings.ts';
import type { Settlement } from './settlement.ts';
import { freeClocks, type TimePlan } from './time-plan.ts';
import { settleZone } from './zone.ts';

/** Settles the time fields: order of dates, day numbers, and whose clock they follow. */
export function settleTimes(settlement: Settlement, plans: readonly TimePlan[], zonedStations: number): void {
  const dates = plans
    .map(({ column }) => settlement.column(column)?.time ?? null)
    .filter((time) => time !== null);
  for (const plan of plans) settleTime(settlement, withClock(settlement, plan), dates, zonedStations);
}

/** A date that stands alone beside a column of clocks: whether they belong together is asked. */
function withClock(settlement: Settlement, plan: TimePlan): TimePlan {
  const clocks = freeClocks(settlement.evidence.sights, settlement.recognition);
  const hasClock = plan.clockColumn !== null || (settlement.column(plan.column)?.time?.withClock ?? 0) > 0;
  if (hasClock || clocks.length === 0) return plan;
  const answer = askClock(plan, clocks, settlement.evidence, settlement.asking);
  return answer === null || answer === 'none' ? plan : { ...plan, clockColumn: Number(answer) };
}

function settleTime(
  settlement: Settlement,
  plan: TimePlan,
  dates: readonly TimeEvidence[],
  zonedStations: number
): void {
  const evidence = settlement.column(plan.column)?.time ?? null;
  const clock = plan.clockColumn === null ? null : (settlement.column(plan.clockColumn)?.time ?? null);
  if (evidence === null || (plan.clockColumn !== null && clock === null)) {
    settlement.needsPass = true;
    return;
  }
  const header = settlement.header(plan.column);
  const sight = settlement.evidence.sights[plan.column];
  const stated = statedOrder(sight?.header ?? '') ?? statedOrder(sight?.unit ?? '');
  const settled = settleDates(
    { evidence, column: plan.column, header, stated, columns: dates },
    settlement.asking
  );
  const zone = settleZone(plan, settled, settlement.evidence, zonedStations, settlement.asking);
  const chosen = new Set(
    settlement.recognition.roles.filter((role) => role.isChosen).map((role) => role.column)
  );
  for (const finding of timeFinding(plan, chosen, settlement.evidence, settled)) {
    settlement.findings[finding.index] ??= finding;
  }
  settlement.noteMissing(plan.column);
  noteDates(settlement, evidence, clock, header);
  if (settled === null || zone === null) return;
  const reading: TimeReading = {
    kind: 'time',
    key: plan.key,
    column: plan.column,
    clockColumn: plan.clockColumn,
    order: settled.order,
    proven: settled.proven,
    serial: settled.serial,
    bareDate: askBareDate(settlement, plan, evidence),
    yearFirstOpen: isDayFirst(evidence),
    ...zone
  };
  settlement.readings.push(reading);
}

/** A slip of the month is rarer than one date in so many. */
const typosAreFewer = 20;
/** A month mistyped is 13 rather than 27. */
const mostMistyped = 19;

/** True where dates with the year first that have no such month are days before months, and no slips of one month. */
function isDayFirst({ dayBeforeMonth, daysBeforeMonth, plain }: TimeEvidence): boolean {
  const isSeveral = (daysBeforeMonth & (daysBeforeMonth - 1)) !== 0;
  const isDay = daysBeforeMonth >>> (mostMistyped + 1) !== 0;
  return dayBeforeMonth * typosAreFewer >= plain && (isSeveral || isDay);
}

/** What a date without a clock means among others that have one; until someone says, such records are refused. */
function askBareDate(
  settlement: Settlement,
  plan: TimePlan,
  evidence: TimeEvidence
): TimeReading['bareDate'] {
  if (plan.clockColumn !== null || evidence.withClock === 0) return 'midnight';
  if (evidence.dateOnly === 0) return 'refuse';
  const answer = settlement.asking.ask({
    id: `bareDate:${plan.column}`,
    kind: 'bareDate',
    column: plan.column,
    about: settlement.header(plan.column),
    count: evidence.dateOnly,
    readings: [wordedReading('refuse'), wordedReading('midnight')],
    byDefault: 'refuse'
  });
  return answer === 'midnight' ? 'midnight' : 'refuse';
}

function noteDates(
  settlement: Settlement,
  evidence: TimeEvidence,
  clock: TimeEvidence | null,
  header: string
): void {
  const mixed = Object.values(evidence.only).filter((count) => count > 0).length > 1;
  if (mixed || evidence.dayBeforeMonth > 0) settlement.note('mixedDates', null, header);
  if (evidence.serial > 0) settlement.note('serialDates', evidence.samples[0]?.line ?? null, header);
  if (evidence.twoDigitYears > 0) settlement.note('twoDigitYears', evidence.samples[0]?.line ?? null, header);
  if (clock === null && evidence.withClock === 0 && evidence.cells > evidence.bad) {
    settlement.note('dateOnly', evidence.samples[0]?.line ?? null, header);
  }
}
