/** Builds the site where its sources changed since the last build. */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { isCalledDirectly, projectUrl, run, say } from './process.js';

const sourcePlaces = [
  'package-lock.json',
  'package.json',
  'src',
  'static',
  'svelte.config.js',
  'tsconfig.json',
  'vite.config.ts'
];
const stampUrl = new URL('.svelte-kit/built-from.json', projectUrl);
const buildUrl = new URL('build/', projectUrl);

/**
 * Every file at or under a place of the project, sorted.
 * @param {string} place
 * @returns {string[]}
 */
function filesUnder(place) {
  const url = new URL(place, projectUrl);
  if (!existsSync(url)) return [];
  if (statSync(url).isFile()) return [place];
  return readdirSync(url)
    .sort()
    .flatMap((name) => filesUnder(`${place}/${name}`));
}

/**
 * sha-256 over names and what `read` gives for each file.
 * @param {string[]} places
 * @param {(url: URL) => string | Uint8Array} read
 */
function fingerprint(places, read) {
  const hash = createHash('sha256');
  for (const file of places.flatMap(filesUnder)) {
    hash
      .update(`${file}\0`)
      .update(read(new URL(file, projectUrl)))
      .update('\0');
  }
  return hash.digest('hex');
}

const sourceState = () => fingerprint(sourcePlaces, (url) => readFileSync(url));
/** Built names carry a hash of their content, so names and sizes tell one build from another. */
const outputState = () => fingerprint(['build'], (url) => String(statSync(url).size));

/** True if `build/` is what the present sources build to, and nobody has changed it since. */
export function isBuildCurrent() {
  if (!existsSync(stampUrl) || !existsSync(new URL('index.html', buildUrl))) return false;
  const stamp = JSON.parse(readFileSync(stampUrl, 'utf8'));
  return stamp.source === sourceState() && stamp.output === outputState();
}

/**
 * Builds, and writes down from what.
 * @returns {Promise<boolean>} false when the build failed
 */
export async function build() {
  const source = sourceState();
  rmSync(stampUrl, { force: true });
  const code = await run(process.execPath, ['node_modules/vite/bin/vite.js', 'build']);
  if (code !== 0) return false;
  mkdirSync(new URL('.', stampUrl), { recursive: true });
  writeFileSync(stampUrl, JSON.stringify({ source, output: outputState() }));
  return true;
}

/** Builds if `build/` is not current. */
export async function ensureBuilt() {
  if (isBuildCurrent()) return true;
  say('Building the site: its sources changed since the last build, or there was none.');
  return build();
}

if (isCalledDirectly(import.meta.url)) process.exitCode = (await build()) ? 0 : 1;
