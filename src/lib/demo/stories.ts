import { instantOf, minutesPerDay } from './calendar.ts';
import { plan } from './plan.ts';
import { suppliers } from './suppliers.ts';

/** A planted story as the demo's truth tells it. */
export interface StoryTruth {
  readonly number: number;
  /** What a reader is asked. */
  readonly question: string;
  readonly what: string;
  readonly where: {
    readonly station?: string;
    readonly tail?: string;
    readonly vehicle?: string;
    readonly supplier?: string;
  };
  /** First and last instant, ISO 8601 UTC; null is open. */
  readonly from: string | null;
  readonly until: string | null;
  /** How big, in the unit beside it. */
  readonly size: number;
  readonly unit: string;
  /** Which way the discrepancy goes where it moves: plus means the gauge says more. */
  readonly discrepancy: 'plus' | 'minus' | 'either' | 'unmoved';
  readonly lesson: string;
}

const on = (day: number): string => new Date(instantOf(day * minutesPerDay)).toISOString();
const always = { from: null, until: null } as const;

/** The sixteen stories, in the order of their numbers. */
export const stories: readonly StoryTruth[] = [
  {
    number: 1,
    question: 'Which gauge drifts, and since when?',
    what: 'The gauge slowly reads too high',
    where: { tail: plan.drift.tail },
    from: on(plan.drift.fromDay),
    until: null,
    size: plan.drift.percentPer30Days,
    unit: '% per 30 days',
    discrepancy: 'plus',
    lesson: 'Drift shows long before limits break'
  },
  {
    number: 2,
    question: 'What changed when a meter was exchanged?',
    what: 'The new meter counts too much',
    where: { station: 'JDUM', vehicle: plan.exchange.vehicle },
    from: on(plan.exchange.fromDay),
    until: null,
    size: plan.exchange.percent,
    unit: '% of volume',
    discrepancy: 'minus',
    lesson: 'All tails it serves move, so it is a column and not a row'
  },
  {
    number: 3,
    question: 'A density jumped. Is it a fault?',
    what: 'A new refinery supplies denser fuel, within specification',
    where: { station: plan.refinery.station, supplier: suppliers.ostrel },
    from: on(plan.refinery.fromDay),
    until: null,
    size: plan.refinery.stepKgM3,
    unit: 'kg/m3 at 15 C',
    discrepancy: 'unmoved',
    lesson: 'A step can be harmless'
  },
  {
    number: 4,
    question: 'Why do hot days at one station disagree?',
    what: 'On hot days the density at 15 C is written as if it were observed',
    where: { station: plan.hotDays.station, supplier: suppliers.pellam },
    from: on(plan.hotDays.fromDay),
    until: null,
    size: plan.hotDays.share,
    unit: `share of tickets above ${plan.hotDays.aboveC} C`,
    discrepancy: 'minus',
    lesson: 'It looks like a density step, but the discrepancy moves with it'
  },
  {
    number: 5,
    question: 'Which densities are too tidy?',
    what: 'The default 0.800 is written on nearly every ticket',
    where: { station: plan.tidyDensity.station, supplier: suppliers.sundrift },
    ...always,
    size: plan.tidyDensity.share,
    unit: 'share of tickets',
    discrepancy: 'either',
    lesson: 'No spread is a finding too'
  },
  {
    number: 6,
    question: 'Are these water finds bad luck?',
    what: 'Water tests turn positive in the rainy season until filter elements are changed',
    where: { station: plan.water.station },
    from: on(plan.water.fromDay),
    until: on(plan.water.untilDay),
    size: plan.water.count,
    unit: 'positives in nine weeks',
    discrepancy: 'unmoved',
    lesson: 'Rare events need gaps, not rates'
  },
  {
    number: 7,
    question: 'What would make these uplifts fit?',
    what: 'US gallons stand in the litre column, later pounds in the kilogram columns of some records',
    where: { station: plan.opening.station },
    from: on(plan.opening.fromDay),
    until: on(plan.opening.poundsUntilDay),
    size: plan.opening.gallonsUntilDay - plan.opening.fromDay,
    unit: 'days of gallons',
    discrepancy: 'plus',
    lesson: 'A slip has a factor by which it would fit'
  },
  {
    number: 8,
    question: 'Is the tail with the worst rate the worst tail?',
    what: 'The best gauge of its type flies the shortest sectors',
    where: { tail: plan.paradox.tail },
    ...always,
    size: plan.paradox.noiseFactor,
    unit: 'scatter of its gauge against its type',
    discrepancy: 'either',
    lesson: 'Compare like with like'
  },
  {
    number: 9,
    question: 'Which station tops the plain list?',
    what: 'Two of nine uplifts are outside by chance',
    where: { station: plan.small.station },
    ...always,
    size: 2,
    unit: 'of nine uplifts',
    discrepancy: 'either',
    lesson: 'Small numbers say little'
  },
  {
    number: 10,
    question: 'A fixed weight or a proportion?',
    what: 'Without ground power the auxiliary power unit runs, and nobody writes its burn',
    where: { station: plan.unpowered.station },
    ...always,
    size: 120,
    unit: 'kg for the AV150, 180 for the AV310, 60 for the TN070',
    discrepancy: 'minus',
    lesson: 'An intercept, not a slope'
  },
  {
    number: 11,
    question: 'Which gauge errs only when the tanks are nearly full?',
    what: 'The probe in the left outer tank sticks, so the gauge shows less',
    where: { tail: plan.probe.tail },
    from: on(plan.probe.fromDay),
    until: null,
    size: plan.probe.aboveKg,
    unit: 'kg departure fuel, above which it shows',
    discrepancy: 'minus',
    lesson: 'Look along the range'
  },
  {
    number: 12,
    question: 'Where was a figure copied instead of read?',
    what: 'The night shift copies the last departure fuel as arrival fuel',
    where: { station: plan.copied.station },
    from: on(plan.copied.fromDay),
    until: null,
    size: plan.copied.count,
    unit: 'records',
    discrepancy: 'minus',
    lesson: 'A copied value equals another exactly'
  },
  {
    number: 13,
    question: 'Tail or truck: can it be told at all?',
    what: 'Tail and truck hardly ever meet another; the truck counts too little',
    where: { tail: plan.pair.tail, vehicle: plan.pair.vehicle },
    ...always,
    size: plan.pair.share,
    unit: 'share of the uplifts of either',
    discrepancy: 'plus',
    lesson: 'It cannot be separated, and the uplift that would is named'
  },
  {
    number: 14,
    question: 'What did the gauge work mend?',
    what: 'A scatter, not a bias, ends with the gauge job',
    where: { tail: plan.scatter.tail },
    from: on(plan.scatter.fromDay),
    until: on(plan.scatter.untilDay),
    size: plan.scatter.noiseFactor,
    unit: 'times the usual scatter',
    discrepancy: 'either',
    lesson: 'Bias and scatter differ'
  },
  {
    number: 15,
    question: 'Do the samples really get better?',
    what: 'Blank sample checks grow, failures go missing first',
    where: { station: plan.blanks.station },
    from: on(plan.blanks.fromDay),
    until: null,
    size: plan.blanks.coverageTo,
    unit: 'coverage at the end, from 0.98',
    discrepancy: 'unmoved',
    lesson: 'Missing is not a pass'
  },
  {
    number: 16,
    question: 'Does the count of lines add up?',
    what: "One month arrives twice, one file has the month before the day, one has decimal commas unlike its sender's others",
    where: {},
    ...always,
    size: 3,
    unit: 'files',
    discrepancy: 'unmoved',
    lesson: 'A count that balances finds what a total hides'
  }
];
