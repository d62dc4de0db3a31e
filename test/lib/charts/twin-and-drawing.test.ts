import { render } from 'svelte/server';
import { describe, expect, it } from 'vitest';
import BandRates from '#lib/charts/BandRates.svelte';
import { biasTwin, type BiasDatum } from '#lib/charts/bias-dots.ts';
import BiasDots from '#lib/charts/BiasDots.svelte';
import { boxTwin, type BoxDatum } from '#lib/charts/box-strips.ts';
import BoxStrips from '#lib/charts/BoxStrips.svelte';
import { heatTwin } from '#lib/charts/calendar-heat.ts';
import CalendarHeat from '#lib/charts/CalendarHeat.svelte';
import { fateTwin, type Fate } from '#lib/charts/fate-bars.ts';
import FateBars from '#lib/charts/FateBars.svelte';
import { forestTwin } from '#lib/charts/forest.ts';
import ForestChart from '#lib/charts/ForestChart.svelte';
import { funnelTwin, sizeTicks, type FunnelPoint } from '#lib/charts/funnel.ts';
import FunnelChart from '#lib/charts/FunnelChart.svelte';
import { gapTwin, type GapDatum } from '#lib/charts/gap-chart.ts';
import GapChart from '#lib/charts/GapChart.svelte';
import { effectTwin, matrixTwin, sideStep } from '#lib/charts/matrix.ts';
import MatrixChart from '#lib/charts/MatrixChart.svelte';
import { pairedTwin } from '#lib/charts/paired-dots.ts';
import PairedDots from '#lib/charts/PairedDots.svelte';
import { rateTwin, type RateDatum } from '#lib/charts/rate-dots.ts';
import RateDots from '#lib/charts/RateDots.svelte';
import { ridgeTwin } from '#lib/charts/ridges.ts';
import RidgeLines from '#lib/charts/RidgeLines.svelte';
import { scatterTwin, type ScatterData } from '#lib/charts/scatter-bins.ts';
import ScatterBins from '#lib/charts/ScatterBins.svelte';
import { seriesTwin, type SeriesPoint } from '#lib/charts/series-chart.ts';
import SeriesChart from '#lib/charts/SeriesChart.svelte';
import type { Twin } from '#lib/charts/twin.ts';
import { attribute, drawnKeys, farthestFromLine, groupOf, markPlaces, tidy } from './drawn.ts';

// Marks are placed to a hundredth of a px.
const NEAR_PX = 0.02;
const SAID = { title: 'Title', description: 'Description' };
const values = [0.013, 0.004, 0.22, 0.061, 0.035];

/** The values of a column of a twin by row key: what the table is sorted by and shows. */
function column(twin: Twin, key: string): Map<string, number> {
  const index = twin.columns.findIndex((each) => each.key === key);
  return new Map(twin.rows.map((row) => [row.key, Number(row.cells[index]?.sort)]));
}

function offLine(twin: Twin, key: string, svg: string, axis: 'x' | 'y'): number {
  const places = markPlaces(svg);
  const pairs = [...column(twin, key)]
    .filter(([row, value]) => Number.isFinite(value) && places.has(row))
    .map(([row, value]) => ({ value, place: places.get(row)?.[axis] ?? NaN }));
  expect(pairs.length).toBeGreaterThan(2);
  return farthestFromLine(pairs);
}

const rates: RateDatum[] = values.map((rate, index) => ({
  key: `s${index}`,
  label: `J${index}`,
  rate,
  low: rate * (0.2 + index / 10),
  high: rate + 0.01 * ((index % 3) + 1),
  events: Math.round(rate * 1000),
  n: 1000,
  split: index,
  mark: index === 2 ? 'ringed' : 'open',
  word: index === 2 ? 'outside' : 'within'
}));
const rateNames = {
  group: 'Station',
  rate: 'Outside',
  events: 'Outside',
  n: 'Judged',
  split: 'suspected slips'
};

describe('a rate chart and its twin', () => {
  const twin = rateTwin(rates, rateNames, 'Rates');

  it('stand in the same order with the same keys', () => {
    const svg = tidy(render(RateDots, { props: { ...SAID, data: rates, names: rateNames } }));
    expect(drawnKeys(svg)).toEqual(twin.rows.map((row) => row.key));
  });

  it('agree datum by datum, along rows and along bands', () => {
    const rows = tidy(render(RateDots, { props: { ...SAID, data: rates, names: rateNames } }));
    expect(offLine(twin, 'rate', rows, 'x')).toBeLessThan(NEAR_PX);
    const bands = tidy(
      render(BandRates, { props: { ...SAID, data: rates, names: rateNames, bandLabel: 'Uplift, t' } })
    );
    expect(offLine(twin, 'rate', bands, 'y')).toBeLessThan(NEAR_PX);
  });

  it('draw each whisker from end to end of its interval, on the scale of the dots', () => {
    const rows = tidy(render(RateDots, { props: { ...SAID, data: rates, names: rateNames } }));
    const ends = [...rows.matchAll(/class="whisker[^"]*" d="M([\d.]+) [\d.]+L([\d.]+) /g)];
    const dots = markPlaces(rows);
    expect(ends).toHaveLength(rates.length);
    const pairs = twin.rows.flatMap((row, index) => [
      { value: column(twin, 'low').get(row.key) ?? NaN, place: Number(ends[index]?.[1]) },
      { value: column(twin, 'rate').get(row.key) ?? NaN, place: dots.get(row.key)?.x ?? NaN },
      { value: column(twin, 'high').get(row.key) ?? NaN, place: Number(ends[index]?.[2]) }
    ]);
    expect(farthestFromLine(pairs)).toBeLessThan(NEAR_PX);
  });

  it('draw no mark for a group without a rate, and the twin says so', () => {
    const none = rates.map((datum, index) =>
      index === 0 ? { ...datum, rate: NaN, low: NaN, high: NaN } : datum
    );
    expect(
      drawnKeys(tidy(render(RateDots, { props: { ...SAID, data: none, names: rateNames } })))
    ).not.toContain('s0');
    expect(rateTwin(none, rateNames, '').rows[0]?.cells[1]?.text).toBe('none');
  });

  it('split suspected slips off beside the counts', () => {
    const svg = tidy(render(RateDots, { props: { ...SAID, data: rates, names: rateNames } }));
    expect(svg).toContain('220 of 1\u2009000, 2 suspected slips');
    expect(twin.rows[2]?.cells.map((cell) => cell.text)).toEqual([
      'J2',
      '22.0',
      '8.8',
      '25.0',
      '220',
      '2',
      '1\u2009000',
      'outside'
    ]);
  });
});

describe('a series chart and its twin', () => {
  const week = 604_800_000;
  const points: SeriesPoint[] = [0.1, -0.4, NaN, 0.9, 1.6].map((value, index) => ({
    key: `w${index}`,
    label: `W${index}`,
    x: index * week,
    value,
    n: 30 + index,
    mark: value > 0.62 ? 'ringed' : 'open',
    word: value > 0.62 ? 'outside, high' : 'within'
  }));
  const names = {
    period: 'Week',
    value: 'Mean',
    unit: '%',
    form: { decimals: 2, signed: true },
    n: 'uplifts'
  };
  const limits = [
    {
      key: 'upper',
      label: 'Upper limit',
      stretches: [
        { from: 0, to: 2 * week, value: 0.62 },
        { from: 3 * week, to: 9 * week, value: 0.7 }
      ]
    }
  ];
  const events = [{ key: 'e', x: 3.5 * week, label: 'gauge work' }];
  const lines = [{ key: 'mean', label: 'Mean', points }];
  const twin = seriesTwin(lines, limits, events, names, 'Weeks');
  const svg = tidy(render(SeriesChart, { props: { ...SAID, lines, names, limits, events } }));

  it('agree datum by datum in value and in time', () => {
    expect(offLine(twin, 'value', svg, 'y')).toBeLessThan(NEAR_PX);
    expect(offLine(twin, 'period', svg, 'x')).toBeLessThan(NEAR_PX);
  });

  it('leave a week without a value unmarked and the line broken', () => {
    expect(markPlaces(svg).has('w2')).toBe(false);
    expect(svg.match(/class="thread"/g)).toHaveLength(2);
    expect(twin.rows[2]?.cells[2]?.text).toBe('');
  });

  it('write the limit that holds in the week and the event after it', () => {
    const limit = twin.columns.findIndex((each) => each.key === 'upper');
    expect(twin.rows.map((row) => row.cells[limit]?.text)).toEqual([
      '+0.62',
      '+0.62',
      '+0.62',
      '+0.70',
      '+0.70'
    ]);
    expect(twin.rows[3]?.cells.at(-1)?.text).toBe('gauge work');
    expect(svg).toContain('gauge work');
    expect(svg).toContain('>+0.70</text');
  });
});

describe('a bias chart and its twin', () => {
  const names = {
    item: 'Tail',
    group: 'Type',
    value: 'Bias',
    unit: '%',
    form: { decimals: 2, signed: true },
    n: 'uplifts',
    minus: 'meter says more',
    plus: 'gauge says more'
  };
  const data: BiasDatum[] = [0.42, -0.2, 0, 0.05].map((value, index) => ({
    key: `t${index}`,
    label: `Q7-KE${index}`,
    group: index % 2 === 0 ? 'AV150' : 'TN070',
    value,
    low: value - 0.1,
    high: value + 0.1,
    n: 500,
    mark: 'open',
    word: 'within'
  }));
  const twin = biasTwin(data, names, 'Bias');
  const svg = tidy(render(BiasDots, { props: { ...SAID, data, names } }));

  it('agree datum by datum and stand in the same order, by group', () => {
    expect(offLine(twin, 'value', svg, 'x')).toBeLessThan(NEAR_PX);
    expect(drawnKeys(svg)).toEqual(twin.rows.map((row) => row.key));
    expect(twin.rows.map((row) => row.key)).toEqual(['t0', 't2', 't1', 't3']);
  });

  it('name the side of zero in words and in ink, and neither at zero', () => {
    expect(twin.rows.map((row) => row.cells[5]?.text)).toEqual([
      'gauge says more',
      '',
      'meter says more',
      'gauge says more'
    ]);
    expect(twin.rows.map((row) => row.cells[2]?.tone)).toEqual(['plus', 'none', 'minus', 'plus']);
    expect(svg).toMatch(/class="tone-minus"[^]*data-key="t1"/);
  });
});

describe('box strips and their twin', () => {
  const names = { group: 'Station', value: 'Density', unit: 'kg/m³', form: { decimals: 1 }, n: 'tickets' };
  const strip = (key: string, q50: number, n: number): BoxDatum => ({
    key,
    label: key,
    n,
    q05: q50 - 9,
    q25: q50 - 3,
    q50,
    q75: q50 + 4,
    q95: q50 + 11,
    values: [q50 - 1, q50, q50 + 1, NaN],
    mark: 'open',
    word: 'within'
  });
  const data = [strip('a', 795, 400), strip('b', 803, 60), strip('c', 811, 900), strip('d', 799, 4)];
  const twin = boxTwin(data, names, 'Density');
  const svg = tidy(
    render(BoxStrips, {
      props: {
        ...SAID,
        data,
        names,
        domain: [770, 845],
        limits: [{ key: 'low', value: 775, label: 'specification 775' }]
      }
    })
  );
  const median = (key: string) => Number(/class="split" d="M([\d.]+)/.exec(groupOf(svg, key))?.[1]);

  it('agree in the median and the middle half of each strip', () => {
    const pairs = ['a', 'b', 'c'].flatMap((key) => {
      const from = attribute(groupOf(svg, key), 'x')[0] ?? NaN;
      const width = attribute(groupOf(svg, key), 'width')[0] ?? NaN;
      return [
        { value: column(twin, 'q25').get(key) ?? NaN, place: from },
        { value: column(twin, 'q50').get(key) ?? NaN, place: median(key) },
        { value: column(twin, 'q75').get(key) ?? NaN, place: from + width }
      ];
    });
    expect(farthestFromLine(pairs)).toBeLessThan(NEAR_PX);
  });

  it('draw the values themselves below ten, missing ones left out', () => {
    expect(groupOf(svg, 'd')).not.toContain('rect');
    expect(svg.slice(svg.indexOf('data-key="d"')).match(/mark-open/g)).toHaveLength(3);
  });
});

describe('fate bars and their twin', () => {
  const fates: Fate[] = [
    { key: 'used', label: 'used', pattern: 'solid' },
    { key: 'aside', label: 'set aside', pattern: 'hatch' },
    { key: 'skipped', label: 'skipped', pattern: 'clear' }
  ];
  const data = [
    { key: 'one', label: 'one.csv', counts: [3000, 400, 100] },
    { key: 'two', label: 'two.csv', counts: [900, 0, 600] }
  ];
  const names = { item: 'File', total: 'records' };
  const twin = fateTwin(data, fates, names, 'Files');
  const svg = tidy(render(FateBars, { props: { ...SAID, data, fates, names } }));

  it('draw each part in proportion to its count, and none for a count of zero', () => {
    const widths = [...attribute(groupOf(svg, 'one'), 'width'), ...attribute(groupOf(svg, 'two'), 'width')];
    const counts = [3000, 400, 100, 900, 600];
    expect(widths).toHaveLength(counts.length);
    const perRecord = (widths[0] ?? NaN) / 3000;
    widths.forEach((width, index) => expect(width / perRecord).toBeCloseTo(counts[index] ?? NaN, 0));
  });

  it('add up: the last column is the sum of the others', () => {
    for (const row of twin.rows) {
      const numbers = row.cells.slice(1).map((cell) => Number(cell.sort));
      expect(numbers.slice(0, -1).reduce((a, b) => a + b)).toBe(numbers.at(-1));
    }
    expect(svg).toContain('used 3\u2009900');
  });
});

describe('a calendar and its twin', () => {
  const rows = [
    { key: 'JCOD', label: 'JCOD' },
    { key: 'JLOM', label: 'JLOM' }
  ];
  const columns = [
    { key: 'w1', label: 'W1', head: 'Jan' },
    { key: 'w2', label: 'W2' }
  ];
  const cell = (row: string, week: string, due: number, done: number, failed: number) => ({
    key: `${row} ${week}`,
    row,
    column: week,
    due,
    done,
    failed
  });
  const cells = [
    cell('JCOD', 'w1', 40, 40, 0),
    cell('JCOD', 'w2', 40, 20, 0),
    cell('JLOM', 'w1', 40, 39, 2),
    cell('JLOM', 'w2', 0, 0, 0)
  ];
  const names = {
    row: 'Station',
    column: 'Week',
    due: 'due',
    done: 'done',
    failed: 'failed',
    share: 'coverage'
  };
  const twin = heatTwin(cells, rows, columns, names, 'Coverage');
  const svg = tidy(render(CalendarHeat, { props: { ...SAID, cells, rows, columns, names } }));

  it('hold the same cells, each in the ink of its share', () => {
    expect(drawnKeys(svg)).toEqual(twin.rows.map((row) => row.key));
    expect(cells.map((each) => /step-(\d)/.exec(groupOf(svg, each.key))?.[1])).toEqual([
      '5',
      '1',
      '4',
      undefined
    ]);
  });

  it('outline failures, and say none due instead of a share', () => {
    expect(cells.map((each) => groupOf(svg, each.key).includes('"failed"'))).toEqual([
      false,
      false,
      true,
      false
    ]);
    expect(twin.rows[3]?.cells[4]?.text).toBe('none due');
  });
});

describe('a scatter and its twin', () => {
  const axis = (label: string, unit: string) => ({ label, unit, form: { decimals: 1 } });
  const names = { item: 'Uplift', x: axis('Temperature', '°C'), y: axis('Density', 'kg/m³'), n: 'uplifts' };
  const data: ScatterData = {
    kind: 'points',
    points: [
      [10, 801],
      [33, 788],
      [-4, 812],
      [21, NaN]
    ].map(([x, y], index) => ({
      key: `p${index}`,
      label: `p${index}`,
      x: x ?? NaN,
      y: y ?? NaN,
      mark: 'open' as const
    }))
  };

  it('agree in both directions, a point without a value undrawn', () => {
    const twin = scatterTwin(data, names, 'Points');
    const svg = tidy(render(ScatterBins, { props: { ...SAID, data, names } }));
    expect(offLine(twin, 'x', svg, 'x')).toBeLessThan(NEAR_PX);
    expect(offLine(twin, 'y', svg, 'y')).toBeLessThan(NEAR_PX);
    expect(drawnKeys(svg)).toEqual(['p0', 'p1', 'p2']);
  });

  it('show bins with counts, the fullest darkest', () => {
    const bins = [3, 1, 200].map((count, index) => ({
      key: `b${index}`,
      x0: index,
      x1: index + 1,
      y0: 0,
      y1: 1,
      count
    }));
    const svg = tidy(render(ScatterBins, { props: { ...SAID, data: { kind: 'bins', bins }, names } }));
    const steps = [...svg.matchAll(/bin step-(\d)" data-key="(b\d)"/g)].map((match) => [match[2], match[1]]);
    expect(steps).toHaveLength(3);
    expect(new Map(steps.map(([key, step]) => [key, Number(step)])).get('b2')).toBe(5);
    expect(scatterTwin({ kind: 'bins', bins }, names, '').rows.map((row) => row.cells[4]?.text)).toEqual([
      '3',
      '1',
      '200'
    ]);
  });
});

describe('the other charts and their twins', () => {
  it('a funnel places each point by its size and its value', () => {
    const names = {
      item: 'Station',
      n: 'judged',
      observed: 'outside',
      expected: 'expected',
      split: 'slips',
      value: 'ratio',
      unit: '',
      form: { decimals: 2 },
      size: 'expected',
      target: 'all'
    };
    const data: FunnelPoint[] = [
      [20, 1.2],
      [90, 0.7],
      [150, 1.9],
      [0, NaN]
    ].map(([size, value], index) => ({
      key: `f${index}`,
      label: `f${index}`,
      size: size ?? NaN,
      expected: size ?? NaN,
      observed: 10,
      split: 3,
      n: 500,
      value: value ?? NaN,
      bounds: [[0.8, 1.2]],
      mark: 'open',
      word: 'within'
    }));
    const limits = [
      {
        key: 'l',
        label: '95 %',
        curve: [
          { size: 1, lower: 0, upper: 9 },
          { size: 20, lower: 0.5, upper: 1.5 },
          { size: 150, lower: 0.8, upper: 1.2 }
        ]
      }
    ];
    const twin = funnelTwin(data, limits, names, 'Funnel');
    const svg = tidy(render(FunnelChart, { props: { ...SAID, data, limits, names, target: 1 } }));
    // The axis of sizes is one of square roots.
    const places = markPlaces(svg);
    const pairs = data.slice(0, 3).map((point) => ({
      value: Math.sqrt(point.size),
      place: places.get(point.key)?.x ?? NaN
    }));
    expect(farthestFromLine(pairs)).toBeLessThan(NEAR_PX);
    expect(offLine(twin, 'value', svg, 'y')).toBeLessThan(NEAR_PX);
    expect(twin.rows[0]?.cells[6]?.text).toBe('0.80');
    expect(twin.rows[0]?.cells[3]?.text).toBe('3');
  });

  it('a funnel numbers round sizes that have room, the far end first', () => {
    expect(sizeTicks(1200, (size) => 20 * Math.sqrt(size))).toEqual([2, 20, 50, 100, 200, 500, 1000]);
    expect(sizeTicks(0.4, (size) => size)).toEqual([0]);
  });

  it('gaps stand as high as their count, the running one with an arrow instead of a mark', () => {
    const data: GapDatum[] = [580, 44, 120, 300].map((gap, index) => ({
      key: `g${index}`,
      label: `g${index}`,
      gap,
      mark: 'open',
      word: 'within',
      ...(index === 3 ? { running: true } : {})
    }));
    const names = { event: 'Event', gap: 'uplifts' };
    const svg = tidy(
      render(GapChart, {
        props: { ...SAID, data, names, limits: [{ key: 'c', label: 'centre', value: 300 }] }
      })
    );
    expect(offLine(gapTwin(data, [], names, ''), 'gap', svg, 'y')).toBeLessThan(NEAR_PX);
    expect(markPlaces(svg).has('g3')).toBe(false);
    expect(drawnKeys(svg)).toContain('g3');
  });

  it('a forest centres each square on its difference and keeps the pooled one last', () => {
    const names = {
      item: 'Stratum',
      a: 'A',
      b: 'B',
      value: 'Difference',
      unit: '%',
      form: { decimals: 2, signed: true },
      minus: 'meter',
      plus: 'gauge'
    };
    const data = [0.3, -0.2, 0.1].map((value, index) => ({
      key: `f${index}`,
      label: `f${index}`,
      nA: 10,
      nB: 20,
      value,
      low: value - 0.1,
      high: value + 0.1,
      weight: [0.6, 0.3, 0.1][index] ?? 0
    }));
    const foot = { key: 'foot', label: 'Pooled', nA: 30, nB: 60, value: 0.12, low: 0, high: 0.24 };
    const twin = forestTwin(data, foot, names, 'Forest');
    const svg = tidy(render(ForestChart, { props: { ...SAID, data, foot, names } }));
    const pairs = data.map((datum) => {
      const group = groupOf(svg, datum.key);
      return {
        value: datum.value,
        place: (attribute(group, 'x')[0] ?? NaN) + (attribute(group, 'width')[0] ?? NaN) / 2
      };
    });
    expect(farthestFromLine(pairs)).toBeLessThan(NEAR_PX);
    expect(drawnKeys(svg)).toEqual(twin.rows.map((row) => row.key));
    expect(twin.rows.at(-1)?.key).toBe('foot');
    const areas = data.map((datum) => (attribute(groupOf(svg, datum.key), 'width')[0] ?? 0) ** 2);
    expect((areas[1] ?? 0) / (areas[0] ?? 1)).toBeCloseTo(0.5, 2);
  });

  it('pairs stand at both of their values', () => {
    const names = {
      item: 'Station',
      first: 'plain',
      second: 'fair',
      value: 'Rate',
      unit: '%',
      form: { decimals: 1 },
      n: 'judged'
    };
    const data = [
      [2, 3],
      [5, 4],
      [1, 1.5]
    ].map(([first, second], index) => ({
      key: `p${index}`,
      label: `p${index}`,
      first: first ?? NaN,
      second: second ?? NaN,
      n: 100
    }));
    const svg = tidy(render(PairedDots, { props: { ...SAID, data, names } }));
    const pairs = data.flatMap((datum) => {
      const start = svg.indexOf(`data-key="${datum.key}"`);
      const [first, second] = [...svg.slice(start).matchAll(/translate\(([\d.]+) /g)].map((match) =>
        Number(match[1])
      );
      return [
        { value: datum.first, place: first ?? NaN },
        { value: datum.second, place: second ?? NaN }
      ];
    });
    expect(farthestFromLine(pairs)).toBeLessThan(NEAR_PX);
    expect(pairedTwin(data, names, '').rows.map((row) => row.cells[3]?.text)).toEqual([
      '+1.0',
      '\u22121.0',
      '+0.5'
    ]);
  });

  it('ridges draw a shape from 200 values on and say so below', () => {
    const names = { group: 'Station', value: 'Density', unit: 'kg/m³', form: { decimals: 0 }, n: 'tickets' };
    const edges = [775, 785, 795, 805];
    const data = [
      { key: 'a', label: 'a', n: 400, counts: [100, 200, 100] },
      { key: 'b', label: 'b', n: 9, counts: [0, 9, 0] }
    ];
    const svg = tidy(render(RidgeLines, { props: { ...SAID, data, edges, names } }));
    expect(svg).toMatch(/class="ridge" data-key="a"/);
    expect(svg).toContain('too few for a shape');
    expect(ridgeTwin(data, edges, names, '').rows.map((row) => row.cells.map((cell) => cell.text))).toEqual([
      ['a', '775', '785', '100', '25.0'],
      ['a', '785', '795', '200', '50.0'],
      ['a', '795', '805', '100', '25.0'],
      ['b', '785', '795', '9', '100.0']
    ]);
  });

  it('a matrix inks each pair by its residual and puts the effects in the margins', () => {
    const names = {
      row: 'Tail',
      column: 'Vehicle',
      n: 'uplifts',
      mean: 'mean',
      fitted: 'fitted',
      residual: 'residual',
      effect: 'effect',
      unit: '%',
      form: { decimals: 2, signed: true },
      minus: 'meter says more',
      plus: 'gauge says more'
    };
    const side = (key: string, effect: number) => ({
      key,
      label: key,
      effect,
      low: effect - 0.1,
      high: effect + 0.1,
      n: 40
    });
    const rows = [side('KEA', 0.4), side('KEB', 0.1), side('KEC', -0.3)];
    const columns = [side('R1', 0.2), side('R2', -0.2), side('R3', 0)];
    const cells = rows.flatMap((row, r) =>
      columns.map((each, c) => ({
        row: row.key,
        column: each.key,
        n: 5 + r,
        mean: 0,
        fitted: 0,
        residual: (r - 1) * 0.4 + c * 0.05
      }))
    );
    const svg = tidy(render(MatrixChart, { props: { ...SAID, rows, columns, cells, names, end: 1 } }));
    const twin = matrixTwin(cells, rows, columns, names, 'Matrix');
    expect(drawnKeys(svg).filter((key) => key.includes(' '))).toEqual(twin.rows.map((row) => row.key));
    for (const [key, residual] of column(twin, 'residual')) {
      expect(groupOf(svg, key)).toContain(`side-${sideStep(residual, 1)}"`);
    }
    expect(offLine(effectTwin(rows, 'Tail', names, ''), 'effect', svg, 'x')).toBeLessThan(NEAR_PX);
    expect(offLine(effectTwin(columns, 'Vehicle', names, ''), 'effect', svg, 'y')).toBeLessThan(NEAR_PX);
  });

  it('every drawing is named and described', () => {
    const svg = tidy(render(RateDots, { props: { ...SAID, data: rates, names: rateNames } }));
    expect(svg).toMatch(/role="img" [^>]*aria-labelledby="[^"]+-title [^"]+-description"/);
    expect(svg).toMatch(/<title id="[^"]+-title">Title<\/title>/);
    expect(svg).toMatch(/<desc id="[^"]+-description">Description<\/desc>/);
    expect(svg.match(/tabindex="0"/g)).toHaveLength(1);
    expect(svg).not.toContain('style=');
  });
});
