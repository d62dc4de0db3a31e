import { demoMonths } from './calendar.ts';
import { simulateDay } from './day.ts';
import type { DemoRow, LayoutName } from './row.ts';
import { firstState, type State } from './state.ts';
import type { World } from './world.ts';

/** Sender of each month: the operations office, then the fuelling agent, then a new contractor. */
export function layoutOfMonth(month: number): 'A' | 'B' | 'C' {
  if (month < 7) return 'A';
  return month < 12 ? 'B' : 'C';
}

/** The days of one world, from any month on: the state at the start of each month met is kept for the next call. */
export class Months {
  readonly #world: World;
  readonly #starts: State[];

  constructor(world: World) {
    this.#world = world;
    this.#starts = [firstState(world)];
  }

  /** The tickets of a month, day by day. */
  *days(month: number, layout: LayoutName): Generator<DemoRow[]> {
    for (let before = this.#starts.length - 1; before < month; before++) {
      for (const _ of this.#run(before, layoutOfMonth(before)));
    }
    yield* this.#run(month, layout);
  }

  *#run(month: number, layout: LayoutName): Generator<DemoRow[]> {
    const start = this.#starts[month];
    const span = demoMonths[month];
    if (start === undefined || span === undefined) throw new RangeError(`month: ${month}, need 0 to 17`);
    const state = structuredClone(start);
    while (state.day < span.untilDay) yield simulateDay(this.#world, state, layout);
    this.#starts[month + 1] ??= state;
  }
}
