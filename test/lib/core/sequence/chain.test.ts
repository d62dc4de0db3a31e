import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  chainSectors,
  defaultChainSettings,
  defaultJoinSettings,
  joinRefuellings,
  orderByCodeAndTime,
  sequenceBits,
  type SequenceFlag,
  sequenceFlags
} from '#lib/core/sequence/index.ts';
import { type Given, rowsOf, tailOrder } from './given.ts';

function chainOf(given: readonly Given[]) {
  const rows = rowsOf(given);
  const order = tailOrder(rows);
  const leaders = joinRefuellings(rows, order, defaultJoinSettings);
  const meterOrder = orderByCodeAndTime(rows.vehicle, rows.timeMs);
  const chain = chainSectors(rows, leaders, order, meterOrder, defaultChainSettings);
  const flags = [...chain.flags].map((bits) =>
    sequenceFlags.filter((flag) => (bits & sequenceBits[flag]) !== 0)
  );
  return { tail: [...chain.previousOnTail], meter: [...chain.previousOnMeter], flags, leaders: [...leaders] };
}

const flagsOfLast = (given: readonly Given[]): SequenceFlag[] => chainOf(given).flags.at(-1) ?? [];

const first = { minute: 0, station: 1, arrival: 3000, departure: 11000, volume: 10000 };

describe('the refuelling before on the tail', () => {
  it('is the leader of the one before, for every ticket of a refuelling', () => {
    const chain = chainOf([
      { minute: 300, station: 2 },
      { minute: 0, station: 1 },
      { minute: 310, station: 2 },
      { minute: 10, station: 1 },
      { minute: 600, station: 1 },
      { minute: 5, station: 1, tail: 2 }
    ]);
    expect(chain.leaders).toEqual([0, 1, 0, 1, 4, 5]);
    expect(chain.tail).toEqual([1, -1, 1, -1, 0, -1]);
  });

  it('is none where the tail is not known', () => {
    expect(
      chainOf([
        { minute: 0, tail: 0 },
        { minute: 400, tail: 0 }
      ]).tail
    ).toEqual([-1, -1]);
  });
});

describe('flags of the tail', () => {
  it.each<[string, Given, SequenceFlag[]]>([
    ['burnt fuel on the way', { minute: 300, station: 2, arrival: 4000, departure: 9000, volume: 6000 }, []],
    [
      'arrived with what it departed with: the reading was not updated',
      { minute: 300, station: 2, arrival: 11000, departure: 15000, volume: 6000 },
      ['arrivalEqualsPreviousDeparture']
    ],
    [
      'arrived with more than it departed with',
      { minute: 300, station: 2, arrival: 11101, departure: 15000, volume: 6000 },
      ['arrivalAbovePreviousDeparture']
    ],
    [
      'gained no more than a gauge settles by',
      { minute: 300, station: 2, arrival: 11100, departure: 15000, volume: 1 },
      []
    ],
    [
      'was fuelled again at the stop',
      { minute: 40, station: 1, arrival: 11000, departure: 12000, volume: 1200 },
      ['continuesAtStation']
    ],
    [
      'came back to the station later with its fuel unchanged',
      { minute: 400, station: 1, arrival: 11000, departure: 12000, volume: 1200 },
      ['arrivalEqualsPreviousDeparture']
    ],
    ['has no arrival fuel', { minute: 300, station: 2, departure: 12000, volume: 1200 }, []],
    [
      'rose without a ticket',
      { minute: 300, station: 2, arrival: 4000, departure: 9000 },
      ['fuelRisenWithoutTicket']
    ],
    [
      'rose with a ticket of 0',
      { minute: 300, station: 2, arrival: 4000, departure: 9000, volume: 0 },
      ['fuelRisenWithoutTicket']
    ],
    ['was emptied without a ticket', { minute: 300, station: 2, arrival: 4000, departure: 900 }, []]
  ])('tell of an aircraft that %s', (_what, second, flags) => {
    expect(flagsOfLast([first, second])).toEqual(flags);
  });

  it('do not take two unknown stations for one stay', () => {
    const unknown = { station: 0, arrival: 3000, departure: 9000, volume: 6000 };
    const next = { minute: 30, station: 0, arrival: 9000, departure: 11000, volume: 2000 };
    expect(flagsOfLast([{ minute: 0, ...unknown }, next])).toEqual(['arrivalEqualsPreviousDeparture']);
  });

  it('take readings and volume from any ticket of the refuelling and stand on its leader', () => {
    const chain = chainOf([
      first,
      { minute: 300, station: 2, departure: 15000 },
      { minute: 310, station: 2, arrival: 11000, volume: 6000 }
    ]);
    expect(chain.flags).toEqual([[], ['arrivalEqualsPreviousDeparture'], []]);
  });

  it('would have told of TS-LBB, whose fuel rose on the indicator without a slip (ANSV, aviation-safety.net)', () => {
    expect(flagsOfLast([{ minute: 0, arrival: 600, departure: 2750 }])).toEqual(['fuelRisenWithoutTicket']);
  });
});

describe('the ticket before on the meter', () => {
  const before = { minute: 0, vehicle: 5, tail: 1, meterStart: 1000, meterStop: 5000 };

  it.each<[string, Given, SequenceFlag[]]>([
    ['where it stopped', { meterStart: 5000 }, ['meterStartEqualsPreviousStop']],
    ['a litre on', { meterStart: 5001 }, ['meterStartEqualsPreviousStop']],
    ['a litre back', { meterStart: 4999 }, ['meterStartEqualsPreviousStop']],
    ['further on: others were fuelled between', { meterStart: 9000 }, ['meterStartAbovePreviousStop']],
    ['further back', { meterStart: 0 }, ['meterStartBelowPreviousStop']],
    ['unread', {}, []]
  ])('starts the next %s', (_what, reading, flags) => {
    const chain = chainOf([before, { minute: 60, vehicle: 5, tail: 2, volume: 1, ...reading }]);
    expect(chain.meter).toEqual([-1, 0]);
    expect(chain.flags[1]).toEqual(flags);
  });

  it('is none on another meter, or where the vehicle is not known', () => {
    expect(chainOf([before, { ...before, minute: 60, vehicle: 6 }]).meter).toEqual([-1, -1]);
    expect(
      chainOf([
        { ...before, vehicle: 0 },
        { ...before, minute: 60, vehicle: 0 }
      ]).meter
    ).toEqual([-1, -1]);
  });
});

describe('any chain', () => {
  it('ties each refuelling to an earlier one of its tail, and each tail to one beginning', () => {
    const ticket = fc.record({
      minute: fc.integer({ min: 0, max: 3000 }),
      station: fc.integer({ min: 1, max: 3 }),
      tail: fc.integer({ min: 1, max: 3 })
    });
    fc.assert(
      fc.property(fc.array(ticket, { minLength: 1, maxLength: 40 }), (given) => {
        const { tail, leaders } = chainOf(given);
        const beginnings = new Set<number>();
        leaders.forEach((leader, row) => {
          const previous = tail[row] ?? -1;
          expect(tail[leader]).toBe(previous);
          if (previous < 0) beginnings.add(leader);
          else {
            expect(leaders[previous]).toBe(previous);
            expect(previous).not.toBe(leader);
            expect(given[previous]?.tail).toBe(given[row]?.tail);
            expect(given[previous]?.minute ?? NaN).toBeLessThanOrEqual(given[leader]?.minute ?? NaN);
          }
        });
        expect(beginnings.size).toBe(new Set(given.map(({ tail: code }) => code)).size);
      })
    );
  });
});
