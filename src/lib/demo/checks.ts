import type { CheckState } from '#lib/data/record/index.ts';
import { demoDays, minutesPerDay } from './calendar.ts';
import { ordinaryCoverage, ordinaryFailure, plan } from './plan.ts';
import { plant } from './plant.ts';
import { chance, type Random, seeded, uniform } from './random.ts';
import type { DemoRow } from './row.ts';
import type { State } from './state.ts';
import type { World } from './world.ts';

/** Share of checks at JCOD that find something, and of those the share that is not written from the planted day on. */
const failureAtBlanks = 0.012;
const hiddenFailures = 0.8;

/** Minute after which the next water test at the rainy station finds water; the finds spread over its nine weeks. */
function nextPositiveMinute(world: World, found: number): number {
  const { fromDay, untilDay, count } = plan.water;
  const wanted = Math.max(1, Math.round(count * world.share));
  if (found >= wanted) return Infinity;
  const place = (found + uniform(seeded(world.seed, 29, found))) / wanted;
  return (fromDay + (untilDay - 1 - fromDay) * place) * minutesPerDay;
}

/** A check as recorded when it would pass. */
function unfailed(random: Random, coverage: number): CheckState {
  const draw = uniform(random);
  if (draw < coverage) return 'passed';
  const rest = (draw - coverage) / (1 - coverage);
  if (rest < 0.8) return 'notRecorded';
  return rest < 0.95 ? 'notDone' : 'notRequired';
}

function ordinary(random: Random): CheckState {
  return chance(random, ordinaryFailure) ? 'failed' : unfailed(random, ordinaryCoverage);
}

/** Share of checks recorded at the station of the growing blanks. */
export function coverageAtBlanks(day: number): number {
  const { fromDay, coverageFrom, coverageTo } = plan.blanks;
  const grown = Math.max(0, day - fromDay) / (demoDays - fromDay);
  return coverageFrom + (coverageTo - coverageFrom) * grown;
}

/** One sheet for both checks: a blank sheet blanks both, and failures go missing first. */
function blankSheet(row: DemoRow, random: Random, day: number): void {
  const isFound = chance(random, failureAtBlanks);
  const isHidden = isFound && day >= plan.blanks.fromDay && chance(random, hiddenFailures);
  row.waterTest = 'passed';
  row.visual = isFound ? 'failed' : 'passed';
  if (isHidden || (!isFound && !chance(random, coverageAtBlanks(day)))) {
    row.waterTest = 'notRecorded';
    row.visual = 'notRecorded';
  }
}

/** Fills in the sample checks of a row; rows must come in the order of time. */
export function checkSample(world: World, state: State, row: DemoRow): void {
  const random = state.checks;
  const day = Math.floor(row.endMinute / minutesPerDay);
  if (world.faults && row.stationCode === plan.blanks.station) {
    blankSheet(row, random, day);
    return;
  }
  row.waterTest = ordinary(random);
  row.visual = ordinary(random);
  const { station, fromDay, untilDay } = plan.water;
  if (!world.faults || row.stationCode !== station || day < fromDay || day >= untilDay) return;
  if (row.endMinute >= nextPositiveMinute(world, state.positives)) {
    row.waterTest = 'failed';
    plant(row, { kind: 'water-found', field: 'waterTest', story: 6 }, 'failed', 'failed');
    state.positives++;
  } else if (row.waterTest === 'failed') row.waterTest = 'passed';
}
