import { minutesPerDay } from './calendar.ts';
import { cellSlips } from './cell-slips.ts';
import { checkSample } from './checks.ts';
import { count } from './meters.ts';
import { plantProportion } from './plant.ts';
import { chance, pick, uniform } from './random.ts';
import { refuel } from './refuel.ts';
import type { DemoRow, LayoutName } from './row.ts';
import { advance } from './schedule.ts';
import type { State } from './state.ts';
import { writeStory } from './story-slips.ts';
import { type SlipKind, valueSlips } from './value-slips.ts';
import type { World } from './world.ts';

/** A list of slips with the chance of any of them for one row. */
interface SlipTable {
  readonly kinds: readonly SlipKind[];
  readonly total: number;
}

const table = (kinds: readonly SlipKind[]): SlipTable => ({
  kinds,
  total: kinds.reduce((sum, kind) => sum + kind.per60000, 0) / 60_000
});

const allSlips = table([...valueSlips, ...cellSlips]);
const onlyValueSlips = table(valueSlips);

const remarks = [
  'hose 2, second bay',
  'bay 7, crew asked for "top up"',
  'wind over 40 kt, started late',
  '-2 t against the plan',
  '=see shift log',
  'fuelled with passengers on board; fire cover present',
  'panel light out\nreported to station',
  'crew change'
] as const;

function slip(state: State, row: DemoRow, slips: SlipTable): void {
  let left = uniform(state.typing);
  if (left >= slips.total) return;
  for (const kind of slips.kinds) {
    left -= kind.per60000 / 60_000;
    if (left < 0) {
      kind.apply(row, state.typing, kind.kind);
      return;
    }
  }
}

/** A quarter of shared refuellings lose their second ticket. */
function losesTicket(world: World, state: State, row: DemoRow, next: DemoRow | undefined): boolean {
  if (!world.faults || next?.refuelling !== row.refuelling || !chance(state.typing, 0.25)) return false;
  const bothL = row.volumeL + next.volumeL;
  plantProportion(row, { kind: 'ticket-missing', field: 'volume' }, bothL, row.volumeL);
  return true;
}

/** Numbers the ticket, counts the volume, looks at the sample: what happens in the order of time. */
function complete(world: World, state: State, row: DemoRow, layout: LayoutName): void {
  row.layout = layout;
  const number = (state.tickets[row.station] ?? 0) + 1;
  state.tickets[row.station] = number;
  row.ticket = String(row.station + 1).padStart(2, '0') + String(number).padStart(6, '0');
  const day = Math.floor(row.endMinute / minutesPerDay);
  const counted = count(world, state, row.vehicle, day, row.volumeL > 0 ? row.volumeL : 0);
  row.meter = counted.meter;
  if (row.volumeL > 0) {
    row.meterStartL = counted.startL;
    row.meterStopL = counted.stopL;
    checkSample(world, state, row);
  }
  if (chance(state.checks, 0.02)) row.remarks = pick(state.checks, remarks);
}

function refuellingsOfDay(world: World, state: State, day: number): DemoRow[][] {
  const untilMinute = (day + 1) * minutesPerDay;
  const refuellings: DemoRow[][] = [];
  for (let index = 0; index < state.tails.length; index++) {
    const now = state.tails[index];
    if (now === undefined) continue;
    if (now.endMinute < 0) advance(world, state, index);
    while (now.endMinute < untilMinute) {
      refuellings.push(refuel(world, state, index));
      advance(world, state, index);
    }
  }
  return refuellings.sort((a, b) => (a[0]?.endMinute ?? 0) - (b[0]?.endMinute ?? 0));
}

/** Runs one day and returns its tickets as the sender of the layout writes them, in the order of time. */
export function simulateDay(world: World, state: State, layout: LayoutName): DemoRow[] {
  const slips = layout === 'plain' ? onlyValueSlips : allSlips;
  const rows: DemoRow[] = [];
  const again: DemoRow[] = [];
  for (const tickets of refuellingsOfDay(world, state, state.day)) {
    let isLost = false;
    for (const [index, row] of tickets.entries()) {
      complete(world, state, row, layout);
      if (isLost) {
        isLost = false;
        continue;
      }
      rows.push(row);
      isLost = losesTicket(world, state, row, tickets[index + 1]);
      if (isLost || !world.faults) continue;
      if (!writeStory(world, state, row)) slip(state, row, slips);
      if (row.isTwice) again.push({ ...row, planted: [] });
    }
  }
  state.day++;
  return [...rows, ...again];
}
