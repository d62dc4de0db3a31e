/** Drives the built site as a person would, and reads its performance marks. */
import { knownLayout } from './known-layout.js';
import { MemoryWatch } from './memory.js';
import { watchPage } from './in-page.js';

/**
 * @typedef {{name: string, refuellings: number, judged: number, outside: number}} RateGroup
 * @typedef {{name: string, n: number} & Record<string, unknown>} DensityGroup
 * @typedef {{name: string, passed: number, failed: number}} SampleGroup
 * @typedef {{counts: {header: number, records: number, used: number, setAside: number, refused: number, skipped: number},
 *   discrepancy: {groups: RateGroup[], all: RateGroup}, density: {groups: DensityGroup[]},
 *   samples: {groups: SampleGroup[]}}} SiteAnswers
 * @typedef {Record<string, number>} Figures
 * @typedef {import('playwright').Page} Page
 */

const emptyWaitMs = 5000;
const longestImportMs = 180_000;
/** The first page's question takes minutes on more records. */
const mostForFindings = 1_000_000;
const brushDays = 90;
const brushSteps = 30;
const dayMs = 86_400_000;

/**
 * What a call gives is plain data, whose shape the caller knows.
 * @param {Page} page @param {string} call @param {unknown} argument
 * @returns {Promise<{result: any, ms: number}>}
 */
async function ask(page, call, argument) {
  return page.evaluate(
    ([name, given]) => window.bench.ask(name, given),
    /** @type {const} */ ([call, argument])
  );
}

/** @param {Page} page @param {string} mark */
async function waitForMark(page, mark) {
  const found = await page.waitForFunction(
    (name) => {
      if (performance.getEntriesByName(name).length > 0) return 'marked';
      return document.querySelector('main')?.dataset['state'] === 'failed' ? 'failed' : false;
    },
    mark,
    { timeout: longestImportMs, polling: 20 }
  );
  if ((await found.jsonValue()) === 'failed') throw new Error(`${mark}: the site could not use the file`);
}

/** @param {Page} page */
const fileIds = (page) => page.evaluate(() => window.bench.fileIds());

/** @param {Page} page @param {string} name */
const newest = (page, name) => page.evaluate((mark) => window.bench.newest(mark), name);

/**
 * Answers every open question by its first reading, then uses all files.
 * @param {Page} page @param {number} files how many there are
 */
async function confirm(page, files) {
  await page.waitForFunction(
    (count) =>
      [...document.querySelectorAll('main button')].filter(
        ({ textContent }) => textContent?.trim() === 'Use this file'
      ).length === count,
    files,
    { timeout: longestImportMs, polling: 20 }
  );
  // The first of several files asks while the others are still looked at: from here on only a person is waited for.
  await page.evaluate(() => performance.mark('bench:asked'));
  const questions = page.getByRole('group', { name: /^Question:/ });
  for (let i = 0; i < (await questions.count()); i++) {
    const radios = questions.nth(i).getByRole('radio');
    const checked = await radios.evaluateAll((all) => all.some((each) => /** @type {any} */ (each).checked));
    if (!checked) await radios.first().check();
  }
  const all = page.getByRole('button', { name: 'Use all files' });
  if ((await all.count()) > 0) await all.click();
  else await page.getByRole('button', { name: 'Use this file' }).click();
}

/** @param {Page} page */
async function toStations(page) {
  await page
    .locator('header a', { hasText: /^\s*Stations\s*$/ })
    .first()
    .click();
}

/**
 * Import with or without a remembered layout, from the file chosen to the first full answer on the page of stations.
 * @param {Page} page @param {string[]} paths @param {boolean} isRemembered
 */
async function importFiles(page, paths, isRemembered) {
  await page.evaluate(() => performance.clearMarks());
  await page.setInputFiles('input[type=file]', paths);
  if (!isRemembered) await confirm(page, paths.length);
  await toStations(page);
  await waitForMark(page, 'intake:first-answer');
  await waitForMark(page, 'intake:done');
  const start = await newest(page, 'intake:start');
  const asked = isRemembered
    ? 0
    : (await newest(page, 'intake:answered')) - (await newest(page, 'bench:asked'));
  const after = async (/** @type {string} */ mark) => (await newest(page, mark)) - start - asked;
  return {
    firstAnswer: await after('intake:first-answer'),
    done: await after('intake:done'),
    toQuestions: isRemembered ? NaN : (await newest(page, 'bench:asked')) - start,
    partialAnswer: (await page.evaluate(() => window.bench.first('intake:partial-answer'))) - start - asked
  };
}

/** @param {number[]} values @param {number} share */
export function quantile(values, share) {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? NaN;
}

/** @param {number} ms */
const dayOf = (ms) => new Date(ms).toISOString().slice(0, 10);

/**
 * @param {Page} page @param {(step: number) => string} hashOf
 * @param {number} steps
 */
async function filterSteps(page, hashOf, steps) {
  const answered = [];
  const shown = [];
  let before = null;
  for (let i = 0; i < steps; i++) {
    const next = hashOf(i);
    // A step to where the page is already asks nothing, and nothing would be shown.
    if (next === before) continue;
    before = next;
    const took = await page.evaluate((hash) => window.bench.step(hash), next);
    answered.push(took.answered);
    shown.push(took.shown);
  }
  return { answered, shown };
}

/** @param {Page} page @param {SiteAnswers} answers @param {Figures} figures */
async function measureFilters(page, answers, figures) {
  // Keeping what was read asks all questions again: they are let end first.
  await page.waitForTimeout(1000);
  const { result: scope } = await ask(page, 'scope', { filter: {}, without: [] });
  const stations = answers.discrepancy.groups.map(({ name }) => name).filter((name) => name !== '');
  const most = answers.discrepancy.groups.reduce((a, b) => (b.refuellings > a.refuellings ? b : a)).name;
  const whole = scope.untilMs - scope.fromMs;
  // A file of few days is brushed by a third of them.
  const days = Math.max(1, Math.min(brushDays, Math.floor(whole / dayMs / 3)));
  const brush = (/** @type {number} */ step) => {
    const from = scope.fromMs + ((whole - days * dayMs) * step) / brushSteps;
    return `from=${dayOf(from)}&until=${dayOf(from + (days - 1) * dayMs)}`;
  };
  const runs = {
    'station click': await filterSteps(
      page,
      (i) => `station=${stations[i % stations.length] ?? ''}`,
      stations.length
    ),
    'brush alone': await filterSteps(page, brush, brushSteps),
    'station and brush': await filterSteps(page, (i) => `station=${most}&${brush(i)}`, brushSteps),
    'all records again': await filterSteps(page, (i) => (i % 2 === 0 ? '' : `station=${most}`), 6)
  };
  for (const [name, { answered, shown }] of Object.entries(runs)) {
    figures[`${name}: answered p50`] = quantile(answered, 0.5);
    figures[`${name}: answered p95`] = quantile(answered, 0.95);
    figures[`${name}: shown p95`] = quantile(shown, 0.95);
  }
}

/** A study is asked for so long after a filter step, and is then under way: a step comes into the midst of it. */
const studyUnderWayMs = 600;
const studiedStations = 4;

/**
 * What the filter steps leave out: how long the studies of the page take, and what they cost a step taken meanwhile.
 * @param {Page} page @param {SiteAnswers} answers @param {Figures} figures
 */
async function measureStudies(page, answers, figures) {
  const stations = answers.discrepancy.groups.map(({ name }) => name).filter((name) => name !== '');
  const some = [...stations.slice(0, studiedStations)].map((name) => `station=${name}`);
  const took = [];
  for (const hash of [...some, ''])
    took.push(await page.evaluate((next) => window.bench.studied(next), hash));
  figures['studies: all records answered'] = took.at(-1) ?? NaN;
  figures['studies after a station click: all answered p50'] = quantile(took.slice(0, -1), 0.5);
  figures['studies after a station click: all answered, slowest'] = Math.max(...took.slice(0, -1));
  const answered = [];
  for (const hash of [...some, ...some.slice(0, 1)]) {
    answered.push((await page.evaluate((next) => window.bench.step(next), hash)).answered);
    await page.waitForTimeout(studyUnderWayMs);
  }
  figures['station click while studies run: answered, slowest'] = Math.max(...answered);
}

/** @param {Page} page @param {Figures} figures @param {number} rows */
async function measureGrid(page, figures, rows) {
  const list = {
    filter: {},
    ticket: '',
    columns: ['ticket', 'time', 'station', 'tail', 'volume', 'discrepancy']
  };
  const window_ = (/** @type {unknown} */ order, /** @type {number} */ start) =>
    ask(page, 'records', { ...list, order, start, count: 60 });
  await window_(null, 0);
  const jumps = [];
  for (let i = 0; i < 20; i++) jumps.push((await window_(null, Math.floor((rows * ((i * 7) % 20)) / 20))).ms);
  figures['grid: jump p95'] = quantile(jumps, 0.95);
  const sorts = [];
  for (const key of ['time', 'volume', 'tail', 'ticket', 'discrepancy', 'verdict']) {
    const { ms } = await window_({ key, descending: true }, 0);
    figures[`grid: sort by ${key}`] = ms;
    sorts.push(ms);
  }
  figures['grid: sort, slowest'] = Math.max(...sorts);
}

/** What the pages of statistics ask, each asked once, of all records, in this order: a fit is kept for the next. */
const pageQuestions = /** @type {const} */ ([
  ['funnels', { by: 'station' }],
  ['spread', { by: 'station' }],
  ['series', { by: 'station', most: 6 }],
  ['attribution', {}],
  ['offsets', { subject: 'tail' }],
  ['groupCauses', {}],
  ['drift', { subject: 'tail' }],
  ['suppliers', { a: '', b: '', measure: 'rate', bySeason: false }],
  ['densityShapes', {}],
  ['densitySteps', {}],
  ['densityTemperature', { by: 'station' }],
  ['sampleDays', { by: 'station', check: 'waterTest', step: null }],
  ['sampleGaps', { check: 'waterTest' }],
  ['sampleRatio', { by: 'supplier', check: 'waterTest', against: '' }]
]);

/** @param {Page} page @param {Figures} figures */
async function measureQuestions(page, figures) {
  for (const [name, argument] of pageQuestions) {
    const { ms } = await ask(page, name, { filter: {}, ...argument });
    figures[`question: ${name}`] = ms;
  }
}

/**
 * @param {import('playwright').Browser} browser
 * @param {string} address of the site
 * @param {string[]} paths
 * @param {(words: string) => void} say
 */
export async function measureSite(browser, address, paths, say) {
  const context = await browser.newContext();
  await context.addInitScript(watchPage);
  const page = await context.newPage();
  page.on('pageerror', (error) => say(`page error: ${error.message}`));
  const memory = new MemoryWatch(await browser.newBrowserCDPSession());
  /** @type {Figures} */
  const figures = {};
  try {
    await page.goto(`${address}files/`);
    await page.waitForSelector('main[data-state="empty"]');
    await page.waitForTimeout(emptyWaitMs);
    await memory.start();
    const emptyBytes = memory.now();
    await page.evaluate(() => window.bench.longestTask());

    say('import, layout unknown');
    const fresh = await importFiles(page, paths, false);
    figures['import: to questions'] = fresh.toQuestions;
    figures['import: first answer'] = fresh.firstAnswer;
    figures['import: done'] = fresh.done;
    figures['memory: import peak MB'] = (memory.peakBytes - emptyBytes) / 1e6;
    figures['longest task: import'] = await page.evaluate(() => window.bench.longestTask());

    say('answers');
    const groups = { filter: {}, by: 'station' };
    const discrepancy = await ask(page, 'discrepancy', groups);
    const density = await ask(page, 'density', groups);
    const samples = await ask(page, 'samples', { ...groups, check: 'waterTest' });
    figures['question: discrepancy by station'] = discrepancy.ms;
    figures['question: density by station'] = density.ms;
    figures['question: samples by station'] = samples.ms;
    /** @type {(import('./known-layout.js').Account & {counts: SiteAnswers['counts']})[]} */
    const accounts = [];
    for (const id of await fileIds(page)) accounts.push((await ask(page, 'account', id)).result);
    const total = (/** @type {'records' | 'header' | 'used' | 'setAside' | 'refused' | 'skipped'} */ fate) =>
      accounts.reduce((sum, { counts }) => sum + counts[fate], 0);
    /** @type {SiteAnswers} */
    const answers = {
      counts: {
        records: total('records'),
        header: total('header'),
        used: total('used'),
        setAside: total('setAside'),
        refused: total('refused'),
        skipped: total('skipped')
      },
      discrepancy: discrepancy.result,
      density: density.result,
      samples: samples.result
    };

    say('filter steps');
    await measureFilters(page, answers, figures);
    await measureStudies(page, answers, figures);
    figures['longest task: filters'] = await page.evaluate(() => window.bench.longestTask());
    say('records');
    await measureGrid(page, figures, answers.counts.used);
    figures['memory: peak MB'] = (memory.peakBytes - emptyBytes) / 1e6;
    if (answers.counts.used <= mostForFindings) {
      await measureQuestions(page, figures);
      figures['question: findings'] = (await ask(page, 'findings', { filter: {} })).ms;
      figures['memory: peak with findings MB'] = (memory.peakBytes - emptyBytes) / 1e6;
    }
    memory.stop();

    say('reload');
    await page.reload();
    await waitForMark(page, 'filter:shown');
    figures['reload: first answer'] = await page.evaluate(() => window.bench.first('filter:shown'));
    const again = await ask(page, 'discrepancy', groups);
    const isSame = JSON.stringify(again.result) === JSON.stringify(answers.discrepancy);

    say('import, layout remembered');
    for (const id of await fileIds(page)) await ask(page, 'removeFile', id);
    await page.goto(`${address}files/`);
    await page.waitForSelector('main[data-state="empty"]');
    const known = await importFiles(page, paths, true);
    figures['remembered: partial answer'] = known.partialAnswer;
    figures['remembered: first answer'] = known.firstAnswer;
    figures['remembered: done'] = known.done;
    return { figures, answers, layouts: accounts.map(knownLayout), isSameAfterReload: isSame };
  } finally {
    memory.stop();
    await context.close();
  }
}
