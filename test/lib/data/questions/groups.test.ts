import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { answer } from '#lib/data/questions/index.ts';
import { goldenRecord } from '../ledger/rows-of.ts';
import { contextOf, uplift } from './uplifts.ts';

describe('rates, bias and scatter by group', () => {
  it('count outside of judged, and leave what cannot be judged out of both', () => {
    const { arrivalFuel: _none, ...halfRecord } = uplift(4, 'JBEL', 0);
    const context = contextOf([
      uplift(1, 'JARV', 100),
      uplift(2, 'JARV', 300),
      uplift(3, 'JBEL', -241),
      halfRecord
    ]);
    const { groups, all } = answer(context, 'discrepancy', { filter: {}, by: 'station' });
    expect(
      groups.map(({ name, refuellings, judged, outside }) => [name, refuellings, judged, outside])
    ).toEqual([
      ['JARV', 2, 2, 1],
      ['JBEL', 2, 1, 1]
    ]);
    expect([all.refuellings, all.judged, all.outside]).toEqual([4, 3, 2]);
    expect(groups[0]?.meanKg).toBeCloseTo(200, 9);
    expect(groups[0]?.meanPercent).toBeCloseTo(2.5, 9);
    expect(groups[0]?.spreadPercent).toBeCloseTo(Math.SQRT2 * 1.25, 9);
  });

  it('are those that a plain reading of the same records gives', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.constantFrom('JARV', 'JBEL', ''), fc.integer({ min: -600, max: 600 })), {
          minLength: 1,
          maxLength: 30
        }),
        (pairs) => {
          const context = contextOf(pairs.map(([station, kg], i) => uplift(i, station, kg)));
          const { groups, all } = answer(context, 'discrepancy', { filter: {}, by: 'station' });
          expect(all.judged).toBe(pairs.length);
          for (const group of groups) {
            const own = pairs.filter(([station]) => station === group.name).map(([, kg]) => kg);
            expect(group.judged).toBe(own.length);
            expect(group.outside).toBe(own.filter((kg) => Math.abs(kg) > 240).length);
            expect(group.sumKg).toBeCloseTo(
              own.reduce((sum, kg) => sum + kg, 0),
              6
            );
            expect(group.rateLower).toBeLessThanOrEqual(group.rate);
            expect(group.rateUpper).toBeGreaterThanOrEqual(group.rate);
          }
          expect(groups.reduce((sum, group) => sum + group.judged, 0)).toBe(all.judged);
        }
      ),
      { numRuns: 30 }
    );
  });

  it('give the spread with its interval from thirty refuellings on', () => {
    // 40 uplifts, 1 % to either side in turn: every value 1 % from the mean of 0, so no fourth moment to spare.
    const all = Array.from({ length: 40 }, (_none, i) => uplift(i, 'JARV', i % 2 === 0 ? 80 : -80));
    const of = (records: Parameters<typeof contextOf>[0]) =>
      answer(contextOf(records), 'spread', { filter: {}, by: 'station' }).groups[0];
    expect(of(all)?.deviation).toBeCloseTo(Math.sqrt(40 / 39), 9);
    expect(of(all)?.deviationLower).toBeLessThanOrEqual(of(all)?.deviation ?? NaN);
    expect(of(all)?.deviationUpper).toBeGreaterThanOrEqual(of(all)?.deviation ?? NaN);
    expect(of(all.slice(0, 29))?.deviationLower).toBeNaN();
  });

  it('count a refuelling served by two vehicles for neither', () => {
    const context = contextOf([
      uplift(1, 'JARV', 0, { tail: 'Q7-KEB', vehicle: 'H1' }),
      {
        ...uplift(1, 'JARV', 0, { tail: 'Q7-KEB', vehicle: 'H2' }),
        ticket: '9',
        volume: 100,
        time: '2031-02-10T01:20:00Z'
      }
    ]);
    const { groups } = answer(context, 'discrepancy', { filter: {}, by: 'vehicle' });
    expect(groups.map(({ name, refuellings }) => [name, refuellings])).toEqual([['', 1]]);
  });

  it('give every month from the first to the last, those without uplifts too', () => {
    const context = contextOf([uplift(0, 'JARV', 10), uplift(2, 'JARV', 30)]);
    const { groups } = answer(context, 'series', { filter: {}, by: 'station', most: 5 });
    expect(groups[0]?.months.map(({ month, measured }) => [month, measured])).toEqual([
      ['2031-01', 1],
      ['2031-02', 0],
      ['2031-03', 1]
    ]);
    expect(groups[0]?.months[1]?.meanPercent).toBeNaN();
  });
});

describe('density by group', () => {
  it('gives quantiles at 15 °C and the share of one value typed again and again', () => {
    const densities = [800, 800, 800, 790];
    const context = contextOf(
      densities.map((densityObserved, i) => uplift(i, 'JFEN', 0, { densityObserved }))
    );
    const [group] = answer(context, 'density', { filter: {}, by: 'station' }).groups;
    expect(group?.n).toBe(4);
    expect(group?.q50).toBeCloseTo(800, 6);
    expect(group?.mostFrequentShare).toBe(0.75);
    expect(group?.mostFrequentKgM3).toBe(800);
    expect(group?.distinctObserved).toBe(2);
    expect([...(group?.values ?? [])].map(Math.round)).toEqual([790, 800, 800, 800]);
  });

  it('compares with the certificate at 15 °C against the limit in force', () => {
    const context = contextOf([
      uplift(1, 'JGAL', 0, { densityCertificate15: 798 }),
      uplift(2, 'JGAL', 0, { densityCertificate15: 796 })
    ]);
    const { all } = answer(context, 'density', { filter: {}, by: 'station' });
    expect(all.certificates).toBe(2);
    expect(all.certificateMean).toBeCloseTo(3, 6);
    expect(all.certificateOutside).toBe(1);
  });
});

describe('sample checks by group', () => {
  it('keep a blank apart from a pass, and what is not required out of the coverage', () => {
    const states = ['passed', 'passed', 'failed', 'notDone', '', 'notRequired'];
    const context = contextOf(states.map((waterTest, i) => uplift(i, 'JLOM', 0, { waterTest })));
    const { all } = answer(context, 'samples', { filter: {}, by: 'station', check: 'waterTest' });
    expect([all.passed, all.failed, all.notDone, all.notRecorded, all.notRequired]).toEqual([2, 1, 1, 1, 1]);
    expect(all.rate).toBeCloseTo(1 / 3, 12);
    expect(all.coverage).toBeCloseTo(3 / 5, 12);
  });
});

describe('the records of a filter', () => {
  const context = contextOf([uplift(1, 'JARV', 100), uplift(2, 'JBEL', -300), uplift(3, 'JARV', 0)]);
  const asked = {
    filter: {},
    columns: ['discrepancy' as const, 'station' as const],
    order: null,
    start: 0,
    count: 9,
    ticket: ''
  };
  const kilograms = (order: { key: 'discrepancy'; descending: boolean } | null) =>
    answer(context, 'records', { ...asked, order }).rows.map(({ values: [value] }) =>
      Math.round(Number(value))
    );

  it('come in an order, ties in file order', () => {
    expect(kilograms(null)).toEqual([100, -300, 0]);
    expect(kilograms({ key: 'discrepancy', descending: false })).toEqual([-300, 0, 100]);
    expect(kilograms({ key: 'discrepancy', descending: true })).toEqual([100, 0, -300]);
  });

  it('come in windows of the whole', () => {
    const window = answer(context, 'records', { ...asked, start: 1, count: 1 });
    expect(window.total).toBe(3);
    expect(window.rows.map(({ address }) => address)).toEqual(['aaaaaaaa-3']);
  });

  it('are found by a part of the ticket', () => {
    expect(answer(context, 'records', { ...asked, ticket: '2' }).total).toBe(1);
  });
});

describe('the worked sheet', () => {
  it('gives every intermediate of a record and what each input moves', () => {
    const context = contextOf([goldenRecord]);
    const sheet = answer(context, 'sheet', { address: 'aaaaaaaa-2' });
    expect(sheet?.result.meteredMassKg).toBeCloseTo(11_798.6, 1);
    expect(sheet?.tickets[0]?.result.density15KgM3).toBeCloseTo(801.2126, 3);
    const volume = sheet?.sensitivities.find(({ key }) => key === 'volume');
    expect(volume?.changeKg).toBeCloseTo(-7.945, 3);
    expect(answer(context, 'sheet', { address: 'bbbbbbbb-2' })).toBeNull();
  });
});

describe('a limit that is being thought about', () => {
  const context = contextOf([uplift(1, 'JARV', 100), uplift(2, 'JARV', 300), uplift(3, 'JBEL', -500)]);
  const study = (percent: number, floorKg: number) =>
    answer(context, 'limitStudy', {
      filter: {},
      limit: { base: 'meteredMass', width: { percent, floorKg, floorGaugeSteps: 0 }, exceptions: [] }
    });

  it('flags what it would flag, and judges nothing by it', () => {
    expect([study(3, 0).all.outside, study(3, 400).all.outside, study(1, 0).all.outside]).toEqual([2, 1, 3]);
    expect(answer(context, 'discrepancy', { filter: {}, by: 'station' }).all.outside).toBe(2);
  });

  it('says nothing of healthy instruments where the type, and so the uncertainty, is unknown', () => {
    expect(study(3, 0).all.healthyShare).toBeNaN();
    expect(study(3, 0).all.known).toBe(0);
  });
});
