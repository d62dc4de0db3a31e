/**
 * All gates in order, from a bare clone: `npm test`. Words after it name the gates to run alone: `npm test -- lint unit`.
 * A gate that could not be run counts as failed: it has not passed.
 */
import { ensureBrowser } from '../../src/tools/browser.js';
import { build } from '../../src/tools/build.js';
import { ensureInstalled } from '../../src/tools/install.js';
import { run, say } from '../../src/tools/process.js';

/** @param {...string} words a script of a package, and its words */
const node =
  (...words) =>
  async () =>
    (await run(process.execPath, words)) === 0;

/** @type {{name: string, needs?: string, judge: () => Promise<boolean>}[]} needs: what must have passed before */
const gates = [
  { name: 'format', judge: node('node_modules/prettier/bin/prettier.cjs', '--check', '.') },
  { name: 'lint', judge: node('node_modules/eslint/bin/eslint.js', '.', '--max-warnings', '0') },
  {
    name: 'check',
    judge: node(
      'node_modules/svelte-check/bin/svelte-check',
      '--fail-on-warnings',
      '--tsconfig',
      './tsconfig.json'
    )
  },
  { name: 'unit', judge: node('node_modules/vitest/vitest.mjs', 'run') },
  { name: 'build', judge: build },
  { name: 'bundle', needs: 'build', judge: node('test/gates/bundle.js') },
  {
    name: 'e2e',
    needs: 'build',
    judge: node('node_modules/@playwright/test/cli.js', 'test', '--config', 'test/e2e/playwright.config.ts')
  }
];

/** @typedef {{name: string, passed: boolean, seconds: number, words: string}} Result */

/** @param {Result} result */
const resultLine = ({ name, seconds, words }) =>
  `  ${name.padEnd(8)} ${seconds.toFixed(1).padStart(6)} s  ${words}`;

/**
 * @param {(typeof gates)[number]} gate
 * @returns {Promise<Result>}
 */
async function judgeGate({ name, judge }) {
  say(`\n=== ${name}`);
  const start = performance.now();
  const passed = await judge();
  const seconds = (performance.now() - start) / 1000;
  const result = { name, passed, seconds, words: passed ? 'passed' : 'FAILED' };
  say(`===${resultLine(result)}`);
  return result;
}

/**
 * What keeps a gate from being run, or null.
 * @param {(typeof gates)[number]} gate
 * @param {Result[]} before
 * @param {{packages: boolean, browser: boolean}} ready
 */
function obstacle({ name, needs }, before, ready) {
  if (!ready.packages) return 'packages could not be installed';
  if (name === 'e2e' && !ready.browser) return 'no browser';
  return before.some((result) => result.name === needs && !result.passed) ? `${String(needs)} failed` : null;
}

/**
 * @param {typeof gates} chosen
 * @returns {Promise<Result[]>}
 */
async function judgeAll(chosen) {
  const packages = await ensureInstalled();
  const browser = packages && chosen.some(({ name }) => name === 'e2e') && (await ensureBrowser()) !== null;
  /** @type {Result[]} */
  const results = [];
  for (const gate of chosen) {
    const why = obstacle(gate, results, { packages, browser });
    results.push(
      why === null
        ? await judgeGate(gate)
        : { name: gate.name, passed: false, seconds: 0, words: `NOT RUN: ${why}` }
    );
  }
  return results;
}

const names = process.argv.slice(2);
const unknown = names.find((name) => gates.every((gate) => gate.name !== name));
if (unknown !== undefined) {
  say(`gate: ${unknown}, need one of ${gates.map(({ name }) => name).join(', ')}`);
  process.exitCode = 2;
} else {
  const results = await judgeAll(
    names.length === 0 ? gates : gates.filter(({ name }) => names.includes(name))
  );
  const failed = results.filter(({ passed }) => !passed).length;
  const seconds = results.reduce((sum, result) => sum + result.seconds, 0);
  say(`\nGates, ${seconds.toFixed(0)} s in all:`);
  for (const result of results) say(resultLine(result));
  say(`${String(results.length - failed)} passed, ${String(failed)} failed`);
  process.exitCode = failed === 0 ? 0 : 1;
}
