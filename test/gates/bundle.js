/**
 * The bundle gate: what reaches the browser, held against the checked-in list `bundle-allowed.json`. Reads the built
 * site and the module lists written beside it at build time.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import { parseSync } from 'vite';
import { moduleListUrl } from '../../src/tools/module-list.js';
import { countNetworkNames } from '../../src/tools/network-names.js';
import { isCalledDirectly, projectUrl, say } from '../../src/tools/process.js';
import {
  bytesByPackage,
  firstPageFiles,
  judgeNetwork,
  judgePackages,
  judgeUrls,
  packagesOf
} from './bundle-rules.js';

const buildUrl = new URL('build/', projectUrl);
const firstPageBudget = 150_000;
const firstPageGoal = 100_000;

/** @param {URL} url */
const readJson = (url) => JSON.parse(readFileSync(url, 'utf8'));
/** @param {string} file */
const readBuilt = (file) => readFileSync(new URL(file, buildUrl), 'utf8');
/** @param {number} bytes */
const kilobytes = (bytes) => `${(bytes / 1000).toFixed(1)} kB`;

/** @returns {import('../../src/tools/module-list.js').ListedFile[]} */
function readLists() {
  if (!existsSync(moduleListUrl)) return [];
  return readdirSync(moduleListUrl).flatMap((name) => readJson(new URL(name, moduleListUrl)));
}

/**
 * What the installed package says of its licence, also in the older form of a list.
 * @param {string} name
 */
function licenceOf(name) {
  const url = new URL(`node_modules/${name}/package.json`, projectUrl);
  if (!existsSync(url)) return 'not found';
  const { license, licenses } = readJson(url);
  return String(license ?? licenses?.map((/** @type {{type: string}} */ { type }) => type).join(' AND '));
}

/**
 * @param {string[]} names
 * @returns {number}
 */
const gzipped = (names) =>
  names.reduce((sum, file) => sum + gzipSync(readBuilt(file), { level: 9 }).length, 0);

/** @param {string[]} builtFiles */
function loadSite(builtFiles) {
  const built = new Set(builtFiles);
  const listed = new Map(
    readLists()
      .filter(({ file }) => built.has(file))
      .map((entry) => /** @type {const} */ ([entry.file, entry]))
  );
  const scripts = builtFiles.filter((file) => file.endsWith('.js'));
  return { listed, scripts, texts: builtFiles.filter((file) => /\.(js|css|html|json|svg)$/.test(file)) };
}

/**
 * @param {ReturnType<typeof loadSite>} site
 * @returns {string[]}
 */
function judgeFirstPage(site) {
  const files = firstPageFiles(readBuilt('index.html'), site.listed);
  const size = gzipped(files);
  say(
    `\nScript of the first page, gzip: ${kilobytes(size)} in ${String(files.length)} files ` +
      `(budget ${kilobytes(firstPageBudget)}, goal ${kilobytes(firstPageGoal)}${size <= firstPageGoal ? ', reached' : ''})`
  );
  say(`All scripts, gzip: ${kilobytes(gzipped(site.scripts))} in ${String(site.scripts.length)} files`);
  return size <= firstPageBudget
    ? []
    : [`first page: ${String(size)} bytes of script, need at most ${String(firstPageBudget)}`];
}

function main() {
  if (!existsSync(new URL('index.html', buildUrl))) return ['build/: not there, need npm run build first'];
  const allowed = readJson(new URL('bundle-allowed.json', import.meta.url));
  const builtFiles = readdirSync(buildUrl, { recursive: true, encoding: 'utf8' }).map((name) =>
    name.replaceAll('\\', '/')
  );
  const site = loadSite(builtFiles);
  const unlisted = site.scripts.filter((file) => !site.listed.has(file));
  const faults = unlisted.map(
    (file) => `${file}: a script that no module list describes, need a fresh npm run build`
  );

  const files = [...site.listed.values()];
  const sizes = bytesByPackage(files.flatMap((entry) => entry.modules));
  const packages = packagesOf(files);
  say('Packages that reach the browser (size before minifying):');
  for (const name of packages) {
    say(`  ${name.padEnd(48)} ${licenceOf(name).padEnd(14)} ${kilobytes(sizes.get(name) ?? 0).padStart(9)}`);
  }
  faults.push(...judgePackages(packages, licenceOf, allowed));

  const uses = site.scripts.flatMap((file) => ({
    file,
    counts: countNetworkNames(parseSync(file, readBuilt(file)).program),
    modules: site.listed.get(file)?.modules ?? []
  }));
  faults.push(...judgeNetwork(uses, allowed, say));
  faults.push(...site.texts.flatMap((file) => judgeUrls(file, readBuilt(file), allowed)));
  faults.push(...judgeFirstPage(site));
  return faults;
}

if (isCalledDirectly(import.meta.url)) {
  const faults = main();
  for (const fault of faults) say(`FAULT ${fault}`);
  say(faults.length === 0 ? '\nBundle gate passed' : `\nBundle gate failed: ${String(faults.length)} faults`);
  process.exitCode = faults.length === 0 ? 0 : 1;
}
