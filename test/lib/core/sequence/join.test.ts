import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  defaultJoinSettings,
  gaugesOfRefuellings,
  joinRefuellings,
  type JoinSettings
} from '#lib/core/sequence/index.ts';
import { type Given, rowsOf, tailOrder } from './given.ts';

const leadersOf = (given: readonly Given[], settings: Partial<JoinSettings> = {}): number[] => {
  const rows = rowsOf(given);
  return [...joinRefuellings(rows, tailOrder(rows), { ...defaultJoinSettings, ...settings })];
};

const pair = { arrival: 3000, departure: 11000 };

describe('joinRefuellings', () => {
  it.each<[string, Given[], number[]]>([
    ['nothing', [], []],
    ['one ticket', [{ minute: 0, ...pair }], [0]],
    [
      'equal gauge pairs',
      [
        { minute: 0, ...pair },
        { minute: 30, ...pair }
      ],
      [0, 0]
    ],
    ['a pair beside none', [{ minute: 0, ...pair }, { minute: 30 }], [0, 0]],
    ['none beside none', [{ minute: 0 }, { minute: 30 }], [0, 0]],
    [
      'an arrival beside a departure',
      [
        { minute: 0, arrival: 3000 },
        { minute: 30, departure: 11000 }
      ],
      [0, 0]
    ],
    [
      'the end of the window',
      [
        { minute: 0, ...pair },
        { minute: 90, ...pair }
      ],
      [0, 0]
    ],
    [
      'three tickets, in file order of their own',
      [{ minute: 40 }, { minute: 0, ...pair }, { minute: 20 }],
      [1, 1, 1]
    ],
    [
      'equal times',
      [
        { minute: 5, ...pair },
        { minute: 5, ...pair }
      ],
      [0, 0]
    ],
    [
      'two tails, each with two tickets, mixed',
      [
        { minute: 0, tail: 1 },
        { minute: 1, tail: 2 },
        { minute: 2, tail: 1 },
        { minute: 3, tail: 2 }
      ],
      [0, 1, 0, 1]
    ]
  ])('joins %s', (_what, given, leaders) => {
    expect(leadersOf(given)).toEqual(leaders);
  });

  it.each<[string, Given[], number[]]>([
    [
      'beyond the window',
      [
        { minute: 0, ...pair },
        { minute: 91, ...pair }
      ],
      [0, 1]
    ],
    [
      'within a window of the ticket before, not of the first',
      [{ minute: 0 }, { minute: 80 }, { minute: 160 }],
      [0, 0, 2]
    ],
    [
      'at another station',
      [
        { minute: 0, ...pair },
        { minute: 30, station: 2, ...pair }
      ],
      [0, 1]
    ],
    [
      'of another tail',
      [
        { minute: 0, ...pair },
        { minute: 30, tail: 2, ...pair }
      ],
      [0, 1]
    ],
    [
      'of no known tail',
      [
        { minute: 0, tail: 0 },
        { minute: 30, tail: 0 }
      ],
      [0, 1]
    ],
    [
      'at no known station',
      [
        { minute: 0, station: 0 },
        { minute: 30, station: 0 }
      ],
      [0, 1]
    ],
    ['without a time', [{ ...pair }, { ...pair }], [0, 1]],
    [
      'with another arrival',
      [
        { minute: 0, ...pair },
        { minute: 30, arrival: 3100, departure: 11000 }
      ],
      [0, 1]
    ],
    [
      'with another departure',
      [
        { minute: 0, ...pair },
        { minute: 30, arrival: 3000, departure: 11500 }
      ],
      [0, 1]
    ],
    [
      'that go on where the one before ended: links of a chain',
      [
        { minute: 0, arrival: 3000, departure: 9000 },
        { minute: 30, arrival: 9000, departure: 11000 }
      ],
      [0, 1]
    ],
    [
      'that go on where the one before ended, each with one reading only',
      [
        { minute: 0, departure: 9000 },
        { minute: 30, arrival: 9000 }
      ],
      [0, 1]
    ],
    ['after the tail was elsewhere', [{ minute: 0 }, { minute: 30, station: 2 }, { minute: 60 }], [0, 1, 2]]
  ])('leaves apart tickets %s', (_what, given, leaders) => {
    expect(leadersOf(given)).toEqual(leaders);
  });

  it('compares a third ticket with the readings the first two gave together', () => {
    const given = [
      { minute: 0, arrival: 3000 },
      { minute: 10, departure: 11000 },
      { minute: 20, departure: 12000 }
    ];
    expect(leadersOf(given)).toEqual([0, 0, 2]);
  });

  it('joins a gauge that did not move and was typed twice, though it also looks like a chain', () => {
    const still = { arrival: 9000, departure: 9000 };
    expect(
      leadersOf([
        { minute: 0, ...still },
        { minute: 5, ...still }
      ])
    ).toEqual([0, 0]);
  });

  it('leaves an undone group apart and its neighbours joined', () => {
    const given = [{ minute: 0 }, { minute: 10 }, { minute: 20 }, { minute: 200 }, { minute: 210 }];
    expect(leadersOf(given)).toEqual([0, 0, 0, 3, 3]);
    expect(leadersOf(given, { undone: new Set([0]) })).toEqual([0, 1, 2, 3, 3]);
    expect(leadersOf(given, { undone: new Set([1]) })).toEqual([0, 0, 0, 3, 3]);
  });

  it('takes another window', () => {
    expect(leadersOf([{ minute: 0 }, { minute: 45 }], { windowMinutes: 30 })).toEqual([0, 1]);
  });

  it('makes of any tickets groups of one tail and station, led by their first, inside the window', () => {
    const ticket = fc.record(
      {
        minute: fc.integer({ min: 0, max: 300 }),
        station: fc.integer({ min: 0, max: 2 }),
        tail: fc.integer({ min: 0, max: 2 }),
        arrival: fc.constantFrom(1000, 2000),
        departure: fc.constantFrom(2000, 3000)
      },
      { requiredKeys: [] }
    );
    fc.assert(
      fc.property(fc.array(ticket, { maxLength: 40 }), (given) => {
        const leaders = leadersOf(given);
        leaders.forEach((leader, row) => {
          expect(leaders[leader]).toBe(leader);
          if (leader === row) return;
          const [first, other] = [given[leader], given[row]];
          expect([other?.tail ?? 1, other?.station ?? 1]).toEqual([first?.tail ?? 1, first?.station ?? 1]);
          const gap = (other?.minute ?? NaN) - (first?.minute ?? NaN);
          expect(gap).toBeGreaterThanOrEqual(0);
          expect(gap).toBeLessThanOrEqual(90);
        });
      })
    );
  });
});

describe('gaugesOfRefuellings', () => {
  it('gives every ticket the readings of its refuelling, whichever ticket held them', () => {
    const rows = rowsOf([
      { minute: 0, arrival: 3000 },
      { minute: 9, departure: 11000 },
      { minute: 500, ...pair },
      {}
    ]);
    const gauges = gaugesOfRefuellings(rows, joinRefuellings(rows, tailOrder(rows), defaultJoinSettings));
    expect([...gauges.arrivalFuelKg]).toEqual([3000, 3000, 3000, NaN]);
    expect([...gauges.departureFuelKg]).toEqual([11000, 11000, 11000, NaN]);
  });
});
