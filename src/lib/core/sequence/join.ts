/** Tickets as columns. Codes are a dictionary's, 0 missing; NaN is missing elsewhere. */
export interface TicketRows {
  /** End of fuelling. */
  readonly timeMs: Float64Array;
  readonly station: Uint32Array;
  readonly tail: Uint32Array;
  readonly arrivalFuelKg: Float64Array;
  readonly departureFuelKg: Float64Array;
}

export interface JoinSettings {
  readonly windowMinutes: number;
  /** Leaders of groups that a person took apart: their tickets stay alone. */
  readonly undone: ReadonlySet<number>;
}

/** Fuelling of one stop ends within an hour and a half: common practice, no source. */
export const defaultJoinSettings: JoinSettings = { windowMinutes: 90, undone: new Set() };

/** The refuelling being gathered while rows pass in order: the ticket that leads it, and the gauge readings known. */
interface Group {
  leader: number;
  timeMs: number;
  /** Read when a second ticket is compared: most refuellings have one. */
  hasGauges: boolean;
  arrivalKg: number;
  departureKg: number;
}

const areEqualOrMissing = (a: number, b: number): boolean => a === b || Number.isNaN(a) || Number.isNaN(b);

/** Whether a later ticket is of the same tail at the same station; missing names are nobody's. */
function isSameStop(leader: number, row: number, { tail, station }: TicketRows): boolean {
  return (
    tail[leader] !== 0 &&
    station[leader] !== 0 &&
    tail[leader] === tail[row] &&
    station[leader] === station[row]
  );
}

function readGauges(group: Group, rows: TicketRows): void {
  if (group.hasGauges) return;
  group.arrivalKg = rows.arrivalFuelKg[group.leader] ?? NaN;
  group.departureKg = rows.departureFuelKg[group.leader] ?? NaN;
  group.hasGauges = true;
}

/** Whether a later ticket of the same stop has gauge readings that do not contradict. */
function agrees(group: Group, row: number, rows: TicketRows): boolean {
  readGauges(group, rows);
  const arrivalKg = rows.arrivalFuelKg[row] ?? NaN;
  const departureKg = rows.departureFuelKg[row] ?? NaN;
  const isSamePair = arrivalKg === group.arrivalKg && departureKg === group.departureKg;
  const isNextLink = arrivalKg === group.departureKg;
  return (
    isSamePair ||
    (!isNextLink &&
      areEqualOrMissing(arrivalKg, group.arrivalKg) &&
      areEqualOrMissing(departureKg, group.departureKg))
  );
}

/** Readings the group lacks are taken from the ticket that has them. */
function complete(group: Group, row: number, rows: TicketRows): void {
  if (Number.isNaN(group.arrivalKg)) group.arrivalKg = rows.arrivalFuelKg[row] ?? NaN;
  if (Number.isNaN(group.departureKg)) group.departureKg = rows.departureFuelKg[row] ?? NaN;
}

/**
 * Joins the tickets of one refuelling: same tail and station, ends within the window of the first, gauge readings
 * equal or missing on one side. Where the departure fuel of one is the arrival fuel of the next they are links of
 * a chain and stay apart. `order` holds the rows by tail and time (`orderByCodeAndTime`). Returns for every row
 * the row that leads its refuelling: the first in time, itself where alone.
 */
export function joinRefuellings(rows: TicketRows, order: Uint32Array, settings: JoinSettings): Int32Array {
  const leaders = new Int32Array(order.length);
  const windowMs = settings.windowMinutes * 60_000;
  const group: Group = { leader: -1, timeMs: NaN, hasGauges: false, arrivalKg: NaN, departureKg: NaN };
  for (let i = 0; i < order.length; i++) {
    const row = order[i] as number;
    const timeMs = rows.timeMs[row] as number;
    // Time first: it alone tells most tickets apart, and rows in this order lie far from each other in memory.
    const isNear = timeMs - group.timeMs <= windowMs;
    if (isNear && isSameStop(group.leader, row, rows) && agrees(group, row, rows)) complete(group, row, rows);
    else {
      group.leader = row;
      group.timeMs = timeMs;
      group.hasGauges = false;
    }
    leaders[row] = settings.undone.has(group.leader) ? row : group.leader;
  }
  return leaders;
}

/** Gauge readings of each refuelling, for every row of it: the first in row order that is not missing. */
export function gaugesOfRefuellings(
  rows: Pick<TicketRows, 'arrivalFuelKg' | 'departureFuelKg'>,
  leaders: Int32Array
): { arrivalFuelKg: Float64Array; departureFuelKg: Float64Array } {
  return {
    arrivalFuelKg: spread(rows.arrivalFuelKg, leaders),
    departureFuelKg: spread(rows.departureFuelKg, leaders)
  };
}

/** One value a group, the first known one, written to all its rows. */
function spread(values: Float64Array, leaders: Int32Array): Float64Array {
  const known = new Float64Array(values.length).fill(NaN);
  for (let row = 0; row < values.length; row++) {
    const leader = leaders[row] ?? row;
    if (Number.isNaN(known[leader])) known[leader] = values[row] ?? NaN;
  }
  for (let row = 0; row < values.length; row++) known[row] = known[leaders[row] ?? row] ?? NaN;
  return known;
}
