/**
 * `npm run bench -- [rows...] [--file path] [--files n] [--root folder] [--json path] [--write-baseline]`: imports,
 * filters and reloads in headless Chromium, with bare papaparse on the same file as yardstick. Fails on wrong results
 * only: times belong to a machine and its load.
 */
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  writeFileSync
} from 'node:fs';
import { loadavg } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { chromium } from 'playwright';
import { ensureBrowser } from '../../src/tools/browser.js';
import { ensureBuilt } from '../../src/tools/build.js';
import { option, projectUrl, say } from '../../src/tools/process.js';
import { createSite, listen } from '../../src/tools/serve.js';
import { contradictions, differences } from './compare.js';
import { bundle, makeFiles, workFolder } from './make-file.js';
import { referenceOf } from './reference.js';
import { baselineTable, budgetTable, figureTable } from './report.js';
import { measureSite } from './site.js';

const defaultRows = [100_000, 1_000_000];
/** From so many rows on the crossed effects are measured too: papaparse needs as many. */
const crossedRows = 1_000_000;
/** Each of 300 aircraft has some 660 refuellings, so that its effect is found to about 0.03 %. */
const farthestEffectPercent = 0.25;
const baselineUrl = new URL('baseline.json', import.meta.url);

const words = process.argv.slice(2);
const has = (/** @type {string} */ name) => words.includes(`--${name}`);

/** @param {string} folder @returns {string[]} */
function filesIn(folder) {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((name) => join(folder, name))
    .filter((path) => statSync(path).isFile());
}

/** Bytes of the site's scripts, plain and compressed. @param {string} root */
function siteSize(root) {
  const scripts = filesIn(root)
    .filter((path) => path.endsWith('.js'))
    .map((path) => readFileSync(path));
  return {
    'site: all scripts kB': scripts.reduce((sum, { length }) => sum + length, 0) / 1000,
    'site: all scripts, gzip kB': scripts.reduce((sum, script) => sum + gzipSync(script).length, 0) / 1000
  };
}

/** The bench's own page, with its workers bundled. */
async function ownPage() {
  const folder = join(workFolder, 'page');
  mkdirSync(folder, { recursive: true });
  copyFileSync(new URL('page/index.html', import.meta.url), join(folder, 'index.html'));
  await bundle('test/bench/page/yardstick.js', join(folder, 'yardstick.js'), 'browser');
  await bundle('test/bench/page/phases.ts', join(folder, 'phases.js'), 'browser');
  await bundle('test/bench/page/crossed.ts', join(folder, 'crossed.js'), 'browser');
  return folder;
}

/**
 * Runs a worker of the bench's own page over a file.
 * @param {import('playwright').Browser} browser @param {string} address @param {string} script @param {string} path
 * @returns {Promise<any>} plain data
 */
async function workOn(browser, address, script, path) {
  const page = await browser.newPage();
  await page.goto(address);
  await page.setInputFiles('input', path);
  const result = await page.evaluate(
    (name) => window.work(name, document.querySelector('input')?.files?.[0]),
    `./${script}`
  );
  await page.close();
  return result;
}

/**
 * @typedef {{browser: import('playwright').Browser, site: string, own: string}} Stage
 * @param {Stage} stage @param {string[]} paths @param {number} rows
 */
async function measure({ browser, site, own }, paths, rows) {
  const [path = ''] = paths;
  const load = loadavg()[0] ?? NaN;
  say(`\n=== ${rows} rows in ${paths.length} file(s), load average ${load.toFixed(1)}`);
  /** @type {number[]} */
  const yardsticks = [];
  const yardstick = async () => {
    for (const each of paths) yardsticks.push((await workOn(browser, own, 'yardstick.js', each)).ms);
  };
  await yardstick();
  const { figures, answers, layouts, isSameAfterReload } = await measureSite(browser, site, paths, say);
  await yardstick();
  const yardstickMs = yardsticks.reduce((sum, ms) => sum + ms, 0) / 2;
  const phases = paths.length > 1 ? null : await workOn(browser, own, 'phases.js', path);
  const crossed =
    rows >= crossedRows && paths.length === 1 ? await workOn(browser, own, 'crossed.js', path) : null;
  if (crossed !== null) {
    figures['crossed: bare papaparse over as many rows'] = crossed.yardstickMs;
    figures['crossed: plain fit'] = crossed.plainMs;
    figures['crossed: robust fit'] = crossed.robustMs;
  }
  const { faults, unchecked } = await check(paths, layouts, answers);
  if (crossed !== null && !(crossed.farthestPercent < farthestEffectPercent))
    faults.push(`crossed effects: ${crossed.farthestPercent} % off, need less than ${farthestEffectPercent}`);
  if (!isSameAfterReload) faults.push('answers after reload differ from those before');
  return { run: { rows, yardstickMs, load, figures }, phases, faults, unchecked };
}

/**
 * What differs from the plain reference; where that cannot read a file, why, and only the sums are looked at.
 * @param {string[]} paths @param {(import('./known-layout.js').KnownLayout | string)[]} layouts
 * @param {import('./site.js').SiteAnswers} answers
 */
async function check(paths, layouts, answers) {
  const faults = contradictions(answers);
  const unknown = layouts.find((layout) => typeof layout === 'string');
  if (unknown !== undefined) return { faults, unchecked: String(unknown) };
  const reference = await referenceOf(
    paths,
    layouts.filter((layout) => typeof layout !== 'string')
  );
  if (reference.strange !== null) return { faults, unchecked: reference.strange };
  return { faults: [...faults, ...differences(reference, answers)], unchecked: null };
}

/** @param {Awaited<ReturnType<typeof measure>>} measured */
function print({ run, phases, faults, unchecked }) {
  say(`\nyardstick, bare papaparse: ${run.yardstickMs.toFixed(0)} ms`);
  say(`\n${budgetTable(run)}`);
  say(`\n${figureTable(run.figures, run.yardstickMs)}`);
  if (phases !== null) {
    say(`\nphases in a worker of the bench's own\n${figureTable(phases.ms, run.yardstickMs)}`);
    const each = (/** @type {number} */ bytes) => (bytes / phases.rows).toFixed(0);
    say(`bytes an uplift: ${each(phases.sourceBytes)} read, ${each(phases.computedBytes)} computed`);
  }
  say(`\n${baselineTable(run, baselineUrl)}`);
  if (faults.length > 0) say(`\nWRONG RESULTS\n${faults.slice(0, 40).join('\n')}`);
  else if (unchecked === null) say('\nresults: as the reference');
  else say(`\nresults: they add up; not held to the reference, which does not read ${unchecked}`);
}

async function main() {
  const executable = await ensureBrowser();
  const root = option('root') ?? fileURLToPath(new URL('build', projectUrl));
  if (executable === null || (option('root') === undefined && !(await ensureBuilt()))) return false;
  const given = option('file');
  const count = Number(option('files') ?? 1);
  const asked = words
    .filter((word, i) => /^\d+$/.test(word) && !(words[i - 1] ?? '').startsWith('--'))
    .map(Number);
  const servers = [createSite({ root, plain: true }), createSite({ root: await ownPage(), plain: true })];
  const [site, own] = await Promise.all(
    servers.map(async (server) => `http://127.0.0.1:${await listen(server, { port: 4300, tries: 200 })}/`)
  );
  const browser = await chromium.launch({ executablePath: executable.path, args: ['--no-sandbox'] });
  const stage = { browser, site: site ?? '', own: own ?? '' };
  const results = [];
  try {
    if (given !== undefined) results.push(await measure(stage, [given], NaN));
    for (const rows of given !== undefined ? [] : asked.length > 0 ? asked : defaultRows) {
      results.push(await measure(stage, await makeFiles(rows, count), rows));
    }
  } finally {
    await browser.close();
    for (const server of servers) server.close();
  }
  const size = siteSize(root);
  for (const result of results) print(result);
  say(`\n${figureTable(size, NaN).replaceAll(/ +NaN x yardstick/g, '')}`);
  const json = option('json') ?? join(workFolder, 'last.json');
  writeFileSync(json, `${JSON.stringify({ size, results }, null, 2)}\n`);
  say(`written: ${json}`);
  if (has('write-baseline')) {
    const before = existsSync(baselineUrl) ? JSON.parse(readFileSync(baselineUrl, 'utf8')) : {};
    // A file given by path is another file on another machine.
    for (const { run } of results) if (Number.isFinite(run.rows)) before[String(run.rows)] = run;
    writeFileSync(baselineUrl, `${JSON.stringify(before, null, 2)}\n`);
  }
  return results.every(({ faults }) => faults.length === 0);
}

process.exitCode = (await main()) ? 0 : 1;
