import type { EventKind } from '#lib/data/record/index.ts';
import type { RecordFilter } from '#lib/data/ledger/index.ts';
import { beforeAfter } from './before-after.ts';
import type { QuestionContext } from './context.ts';

/** The scatter of an aircraft or a vehicle changed with an event; its level is told by what moved. */
export interface ScatterChanged {
  readonly kind: 'scatterChanged';
  readonly field: 'tail' | 'vehicle';
  readonly name: string;
  /** Refuellings on both sides. */
  readonly n: number;
  readonly strength: number;
  readonly event: EventKind;
  readonly atMs: number;
  /** Scatter before and after, %, and after over before with its 95 % interval. */
  readonly before: number;
  readonly after: number;
  readonly lower: number;
  readonly upper: number;
}

/** Days on each side of an event. */
export const eventDays = 56;
/** Chance that any event is named where no scatter changed. */
const falseShare = 0.01;
/** A comparison needs so many on each side. */
const fewestCompared = 100;
/** A scatter that changes by less than this factor is nobody's work: common practice, no source. */
const leastFactor = 1.25;

/** Events of aircraft and vehicles whose scatter is another afterwards, the partners held equal. */
export function eventFindings(context: QuestionContext, filter: RecordFilter): ScatterChanged[] {
  const events = context.settings.events.flatMap((event) =>
    event.subject === 'tail' || event.subject === 'vehicle' ? [{ ...event, subject: event.subject }] : []
  );
  return events.flatMap(({ subject, code, kind, timeMs }): ScatterChanged[] => {
    const sides = beforeAfter(context, { filter, subject, name: code, atMs: timeMs, days: eventDays });
    if (!sides.estimable || Math.min(sides.nBefore, sides.nAfter) < fewestCompared) return [];
    const factor = Math.max(sides.scatterRatio, 1 / sides.scatterRatio);
    if (!(sides.scatterChance < falseShare / events.length) || factor < leastFactor) return [];
    return [
      {
        kind: 'scatterChanged',
        field: subject,
        name: code,
        n: sides.nBefore + sides.nAfter,
        strength: factor,
        event: kind,
        atMs: timeMs,
        before: sides.scatterBefore,
        after: sides.scatterAfter,
        lower: sides.scatterLower,
        upper: sides.scatterUpper
      }
    ];
  });
}
