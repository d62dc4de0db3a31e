/** The table of a run beside the budgets, and what changed since the committed baseline. */
import { existsSync, readFileSync } from 'node:fs';

/**
 * @typedef {{name: string, figure: string, unit: 'ms' | 'x' | 'x import' | 'x rows' | 'MB', firstCut: number, goal: number}} Budget
 * @typedef {{rows: number, yardstickMs: number, figures: Record<string, number>}} Run
 */

/** @type {Budget[]} */
const budgets = [
  { name: 'import, layout unknown', figure: 'import: first answer', unit: 'x', firstCut: 1.7, goal: 0.6 },
  {
    name: 'import, layout remembered',
    figure: 'remembered: first answer',
    unit: 'x',
    firstCut: 1.7,
    goal: 0.6
  },
  {
    name: 'first partial answer, remembered',
    figure: 'remembered: partial answer',
    unit: 'ms',
    firstCut: 1000,
    goal: 500
  },
  {
    name: 'station click, answered p95',
    figure: 'station click: answered p95',
    unit: 'ms',
    firstCut: 40,
    goal: 12
  },
  {
    name: 'brush alone, answered p95',
    figure: 'brush alone: answered p95',
    unit: 'ms',
    firstCut: 40,
    goal: 12
  },
  {
    name: 'station and brush, answered p95',
    figure: 'station and brush: answered p95',
    unit: 'ms',
    firstCut: 40,
    goal: 12
  },
  {
    name: 'station click, shown p95',
    figure: 'station click: shown p95',
    unit: 'ms',
    firstCut: 66,
    goal: 33
  },
  { name: 'brush alone, shown p95', figure: 'brush alone: shown p95', unit: 'ms', firstCut: 66, goal: 33 },
  { name: 'longest task, import', figure: 'longest task: import', unit: 'ms', firstCut: 100, goal: 50 },
  { name: 'longest task, filters', figure: 'longest task: filters', unit: 'ms', firstCut: 100, goal: 50 },
  {
    name: 'peak memory over the empty page',
    figure: 'memory: peak MB',
    unit: 'MB',
    firstCut: 700,
    goal: 300
  },
  {
    name: 'reload to first answer',
    figure: 'reload: first answer',
    unit: 'x import',
    firstCut: 0.5,
    goal: 0.15
  },
  { name: 'grid, jump p95', figure: 'grid: jump p95', unit: 'ms', firstCut: 200, goal: 50 },
  { name: 'grid, slowest sort', figure: 'grid: sort, slowest', unit: 'ms', firstCut: 2000, goal: 700 },
  { name: 'crossed effects, plain fit', figure: 'crossed: plain fit', unit: 'x rows', firstCut: 2, goal: 1 },
  { name: 'crossed effects, robust fit', figure: 'crossed: robust fit', unit: 'x rows', firstCut: 6, goal: 3 }
];

/** Budgets are written for this many rows. */
const budgetRows = 1_000_000;

/** @param {Budget} budget @param {Run} run */
function measured({ figure, unit }, { figures, yardstickMs }) {
  const value = figures[figure] ?? NaN;
  if (unit === 'x') return value / yardstickMs;
  if (unit === 'x rows') return value / (figures['crossed: bare papaparse over as many rows'] ?? NaN);
  return unit === 'x import' ? value / (figures['import: first answer'] ?? NaN) : value;
}

/** @param {number} value */
const short = (value) => (Number.isNaN(value) ? '-' : value < 10 ? value.toFixed(2) : value.toFixed(0));

/** @param {Run} run */
export function budgetTable(run) {
  const note = run.rows === budgetRows ? '' : ` (budgets are for ${String(budgetRows)})`;
  const lines = budgets.map((budget) => {
    const value = measured(budget, run);
    const verdict = value <= budget.goal ? 'goal' : value <= budget.firstCut ? 'first cut' : 'NOT MET';
    const cells = [short(value), short(budget.firstCut), short(budget.goal)].map((text) => text.padStart(9));
    return `${budget.name.padEnd(34)}${cells.join('')} ${budget.unit.padEnd(9)} ${Number.isNaN(value) ? 'not measured' : verdict}`;
  });
  return [`${String(run.rows)} rows${note}`, `${''.padEnd(34)} measured first cut     goal`, ...lines].join(
    '\n'
  );
}

/** @param {Record<string, number>} figures @param {number} yardstickMs */
export function figureTable(figures, yardstickMs) {
  return Object.entries(figures)
    .map(([name, value]) => {
      const ratio = name.includes('MB') ? '' : `${(value / yardstickMs).toFixed(3).padStart(8)} x yardstick`;
      return `${name.padEnd(44)}${value.toFixed(1).padStart(10)}${ratio}`;
    })
    .join('\n');
}

/**
 * What a run does to the baseline, by ratio to the yardstick of each; only words, since times never fail a run.
 * @param {Run} run
 * @param {URL} baselineUrl
 */
export function baselineTable(run, baselineUrl) {
  if (!existsSync(baselineUrl)) return 'no baseline';
  /** @type {Record<string, Run>} */
  const baseline = JSON.parse(readFileSync(baselineUrl, 'utf8'));
  const before = baseline[String(run.rows)];
  if (before === undefined) return `no baseline for ${String(run.rows)} rows`;
  const lines = Object.entries(run.figures).flatMap(([name, value]) => {
    const old = before.figures[name];
    if (old === undefined || !(old > 0)) return [];
    const change = name.includes('MB') ? value / old : value / run.yardstickMs / (old / before.yardstickMs);
    return Math.abs(change - 1) < 0.15
      ? []
      : [`${name.padEnd(44)}${change.toFixed(2).padStart(8)} x the baseline`];
  });
  return lines.length === 0 ? 'within 15 % of the baseline' : lines.join('\n');
}
