import { events } from './event-list.ts';
import { plan } from './plan.ts';
import { normal, seeded } from './random.ts';
import type { State } from './state.ts';
import { meterDigits } from './vehicles.ts';
import type { World } from './world.ts';

/** Days on which each vehicle's meter is exchanged. */
const exchangeDays = new Map<string, number[]>();
for (const event of events) {
  if (event.kind !== 'meterExchange') continue;
  exchangeDays.set(event.code, [...(exchangeDays.get(event.code) ?? []), event.day]);
}

const exchangedBy = (code: string, day: number): number =>
  (exchangeDays.get(code) ?? []).filter((exchange) => exchange <= day).length;

/** Counting errors of innocent meters after an exchange, %. */
const exchangedSpreadPercent = 0.1;

/** What the meter on a vehicle counts too much on a day, %. */
export function meterPercent(world: World, vehicle: number, day: number): number {
  const entry = world.vehicles[vehicle];
  if (entry === undefined) throw new RangeError(`vehicle: ${vehicle}, need an index`);
  const { code } = entry.entry;
  if (world.faults && code === plan.pair.vehicle) return plan.pair.percent;
  const exchanges = exchangedBy(code, day);
  if (exchanges === 0) return entry.innocentPercent;
  if (world.faults && code === plan.exchange.vehicle) return plan.exchange.percent;
  return exchangedSpreadPercent * normal(seeded(world.seed, 23, vehicle, exchanges));
}

/** Counts a volume, L, on a vehicle's totaliser; a new meter starts near zero and has another number. */
export function count(
  world: World,
  state: State,
  vehicle: number,
  day: number,
  volumeL: number
): { meter: string; startL: number; stopL: number } {
  const entry = world.vehicles[vehicle];
  const now = state.vehicles[vehicle];
  if (entry === undefined || now === undefined) throw new RangeError(`vehicle: ${vehicle}, need an index`);
  const exchanges = exchangedBy(entry.entry.code, day);
  if (exchanges > now.exchanges) {
    now.exchanges = exchanges;
    now.counterL = 120 + vehicle;
  }
  const startL = now.counterL;
  now.counterL = (startL + volumeL) % 10 ** meterDigits;
  return { meter: `M${30_000 + vehicle * 10 + exchanges}`, startL, stopL: now.counterL };
}
