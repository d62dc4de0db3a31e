import { beforeAll, describe, expect, it } from 'vitest';
import { demoStories } from '#lib/demo/index.ts';
import { answer, type Finding, type QuestionContext } from '#lib/data/questions/index.ts';
import { demoContext } from './demo-world.ts';

const dayMs = 86_400_000;

/** How a story was scored: where it shows, and by how many days the day found is from the day planted. */
interface Score {
  readonly story: number;
  readonly found: boolean;
  readonly daysOff: number | null;
}

let context: QuestionContext;
let findings: readonly Finding[];

beforeAll(async () => {
  context = await demoContext();
  findings = answer(context, 'findings', { filter: {} }).findings;
}, 60_000);

function plantedMs(number: number): number {
  const story = demoStories.find((each) => each.number === number);
  return Date.parse(story?.from ?? '');
}

function found(kind: Finding['kind'], field: string, name: string): Finding | undefined {
  return findings.find((each) => each.kind === kind && each.field === field && each.name === name);
}

/** Days between the day planted and the nearest day of the stretch found; 0 inside it. */
function daysOff(number: number, finding: Finding | undefined): number | null {
  if (finding === undefined || !('fromMs' in finding)) return null;
  const planted = plantedMs(number);
  if (planted < finding.fromMs) return Math.round((finding.fromMs - planted) / dayMs);
  return planted > finding.untilMs ? Math.round((planted - finding.untilMs) / dayMs) : 0;
}

function alarmDays(number: number, subject: 'tail' | 'vehicle', name: string): number | null {
  const drift = answer(context, 'drift', { filter: {}, subject });
  const series = drift.estimable ? drift.series.find((each) => each.name === name) : undefined;
  const alarm = series?.points.find(({ period }) => period === series.alarm);
  return alarm === undefined ? null : Math.round((alarm.startMs - plantedMs(number)) / dayMs);
}

/** Days between the first failure of the run that a station's gaps show and the day planted. */
function runDays(number: number, station: string): number | null {
  const gaps = answer(context, 'sampleGaps', {
    filter: { names: { station: [station] } },
    check: 'waterTest'
  });
  const [run] = gaps.runs;
  return run === undefined ? null : Math.round(Math.abs(run.fromMs - plantedMs(number)) / dayMs);
}

/** Whether the tail of story 8 has the worst plain rate of its type and the best one like for like. */
function isParadox(): boolean {
  const answered = answer(context, 'funnels', { filter: { names: { type: ['AV150'] } }, by: 'tail' });
  const of = (kind: 'plain' | 'fair') =>
    (answered[kind]?.units ?? [])
      .filter(({ verdict }) => verdict !== 'tooFew')
      .toSorted((a, b) => a.value - b.value);
  return of('plain').at(-1)?.name === 'Q7-KEH' && of('fair')[0]?.name === 'Q7-KEH';
}

/** Stories that the questions of this room can see, each by its own trail. */
function scores(): Score[] {
  const score = (
    story: number,
    hit: Finding | undefined,
    days: number | null = daysOff(story, hit)
  ): Score => ({
    story,
    found: hit !== undefined,
    daysOff: days
  });
  const attribution = answer(context, 'attribution', { filter: {} });
  const pair = attribution.estimable
    ? attribution.vehicles.find(({ name }) => name === 'JARV-H207')
    : undefined;
  const stations = answer(context, 'discrepancy', { filter: {}, by: 'station' });
  const reach = stations.groups.find(({ name }) => name === 'JHOS');
  return [
    score(1, found('moved', 'tail', 'Q7-KEB'), alarmDays(1, 'tail', 'Q7-KEB')),
    score(2, found('moved', 'vehicle', 'JDUM-R214')),
    score(
      3,
      findings.find(
        (each) =>
          each.kind === 'densityStep' &&
          each.name === 'JGAL' &&
          each.supplier === 'Ostrel Fuels' &&
          each.moved === 'unmoved'
      )
    ),
    score(4, found('moved', 'station', 'JKES')),
    score(5, found('oneDensity', 'station', 'JFEN'), null),
    score(6, found('failures', 'station', 'JLOM'), runDays(6, 'JLOM')),
    score(
      7,
      findings.find(
        (each) => each.kind === 'slips' && each.name === 'JNER' && each.cause === 'usGallonsAsLitres'
      )
    ),
    { story: 8, found: isParadox(), daysOff: null },
    { story: 9, found: reach !== undefined && reach.outside === 2 && reach.judged === 9, daysOff: null },
    score(10, found('standsOff', 'station', 'JIVA'), null),
    score(11, found('moved', 'tail', 'Q7-LOC')),
    score(
      12,
      findings.find((each) => each.kind === 'slips' && each.name === 'JBEL' && each.cause === 'staleArrival')
    ),
    { story: 13, found: pair !== undefined && !pair.separable, daysOff: null },
    score(14, found('scatterChanged', 'tail', 'Q7-KED'), null),
    score(15, found('coverageFell', 'station', 'JCOD'), null)
  ];
}

describe('the stories planted in the demo', () => {
  it('are found where they were planted', () => {
    const list = scores();
    console.log(
      list
        .map(
          ({ story, found: hit, daysOff: days }) =>
            `story ${story}: ${hit ? 'found' : 'missed'}${days === null ? '' : `, ${days} days off`}`
        )
        .join('\n')
    );
    expect(list.filter((score) => !score.found).map(({ story }) => story)).toEqual([]);
  });

  it('are dated: a step within a week, a slow drift within the months it takes to show', () => {
    const list = scores();
    const days = (number: number) => list.find(({ story }) => story === number)?.daysOff ?? NaN;
    expect(days(2)).toBeLessThanOrEqual(7);
    expect(days(3)).toBeLessThanOrEqual(7);
    // The first of eight failures comes when it comes: nine weeks have one in about eight days.
    expect(days(6)).toBeLessThanOrEqual(14);
    expect(days(7)).toBeLessThanOrEqual(1);
    expect(days(11)).toBeLessThanOrEqual(14);
    // 0.2 % in 30 days: median 61 days to a signal in the design's own simulation, 82 at the slow end.
    expect(days(1)).toBeLessThanOrEqual(90);
  });

  it('do not blame a supplier for its stations: twice the plain rate, the same like for like', () => {
    const asked = { filter: {}, measure: 'rate', bySeason: false } as const;
    const found = answer(context, 'suppliers', {
      ...asked,
      a: 'Ostrel Fuels',
      b: 'Pellam & Roe Fuel Services'
    });
    const [plain, fair] = [found.steps[0], found.steps.at(-1)];
    expect((plain?.valueA ?? NaN) / (plain?.valueB ?? NaN)).toBeGreaterThan(1.8);
    expect(plain?.lower).toBeGreaterThan(0.02);
    expect(fair?.lower).toBeLessThan(0);
    expect(fair?.upper).toBeGreaterThan(0);
    expect(fair?.upper).toBeLessThan(plain?.lower ?? NaN);
  });

  it('do not blame a station for small uplifts: those named have more outside than their like', () => {
    const named = findings.flatMap((each) => (each.kind === 'rateAbove' ? [each.name] : []));
    // JIVA writes no burn, JFEN a default density. JESK, JCOD and JLOM have high plain rates: they serve small uplifts.
    expect(named.toSorted()).toEqual(['JFEN', 'JIVA']);
    const { groups, all } = answer(context, 'discrepancy', { filter: {}, by: 'station' });
    for (const name of ['JESK', 'JCOD', 'JLOM']) {
      expect(groups.find((group) => group.name === name)?.rateLower).toBeGreaterThan(all.rate);
    }
  });

  it('tell harmless from not: one density stepped with the fuel, the other with how it is written', () => {
    const steps = findings.flatMap((each) => (each.kind === 'densityStep' ? [each] : []));
    const [refinery, hotDays] = [
      steps.find(({ name }) => name === 'JGAL'),
      steps.find(({ name }) => name === 'JKES')
    ];
    // Planted: 9 kg/m3 at JGAL, the discrepancy unmoved.
    expect(refinery?.byKgM3).toBeGreaterThan(7);
    expect(refinery?.byKgM3).toBeLessThan(11);
    // At JKES it moves as far as the density that is written too high takes it.
    expect(hotDays?.moved).toBe('moved');
    expect(hotDays?.lowerPercent).toBeLessThan(hotDays?.ifWrittenPercent ?? NaN);
    expect(hotDays?.upperPercent).toBeGreaterThan(hotDays?.ifWrittenPercent ?? NaN);
    expect(steps.map(({ name }) => name).sort()).toEqual(['JGAL', 'JKES']);
  });

  it('name a scatter that ended with work on the gauge, and no other event', () => {
    const scatters = findings.flatMap((each) => (each.kind === 'scatterChanged' ? [each] : []));
    expect(scatters.map(({ name }) => name)).toEqual(['Q7-KED']);
    // Planted: 2.0 to 1.2 %, by design of the noise.
    expect((scatters[0]?.after ?? NaN) / (scatters[0]?.before ?? NaN)).toBeCloseTo(0.95 / 1.62, 1);
    const story = demoStories.find((each) => each.number === 14);
    expect(scatters[0]?.atMs).toBe(Date.parse(story?.until ?? ''));
  });

  it('are not buried: few moves are named that were not planted', () => {
    const planted = new Set([
      'Q7-KEB',
      'Q7-LOC',
      'Q7-KED',
      'JDUM-R214',
      'JKES',
      'JFEN',
      'JIVA',
      'JARV-H207',
      'JNER'
    ]);
    const others = findings.filter((each) => each.kind === 'moved' && !planted.has(each.name));
    console.log(`moves not planted: ${others.map(({ name }) => name).join(', ')}`);
    // At most about 2.4 by chance over gauges and meters; 7 is the upper end of the 99 % Poisson range.
    expect(others.length).toBeLessThanOrEqual(7);
  });
});
