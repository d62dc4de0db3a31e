/** Makes the file to measure with: the demo's generator, bundled for Node, writes so many rows of one seed. */
import { createWriteStream } from 'node:fs';
import { mkdir, stat } from 'node:fs/promises';
import { once } from 'node:events';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { rolldown } from 'rolldown';
import { projectUrl } from '../../src/tools/process.js';

/** Where the bench keeps what it makes; files are made anew in each run, since the generator may have changed. */
export const workFolder = join(tmpdir(), 'gaugebook-bench');

/**
 * Bundles a source file of the project or of the bench into one script.
 * @param {string} source path in the project
 * @param {string} target file to write
 * @param {'node' | 'browser'} platform
 */
export async function bundle(source, target, platform) {
  const made = await rolldown({
    input: fileURLToPath(new URL(source, projectUrl)),
    cwd: fileURLToPath(projectUrl),
    platform,
    // The project's own configuration for tests and site is not wanted here.
    tsconfig: false
  });
  await made.write({ file: target, format: 'es' });
  await made.close();
}

/**
 * @typedef {{path: string, rows: number, bytes: number}} BenchFile
 */

/**
 * @param {number} rows
 * @param {number} firstSeed added to the demo's seed, so that several files differ
 * @returns {Promise<BenchFile>}
 */
export async function makeFile(rows, firstSeed = 0) {
  await mkdir(workFolder, { recursive: true });
  const script = join(workFolder, 'demo.mjs');
  await bundle('src/lib/demo/index.ts', script, 'node');
  const { benchmarkFile, demoSeed } = await import(pathToFileURL(script).href);
  const file = benchmarkFile(rows, demoSeed + firstSeed);
  const path = join(workFolder, firstSeed === 0 ? file.name : `${firstSeed}-${file.name}`);
  const out = createWriteStream(path);
  for (const chunk of file.chunks()) if (!out.write(chunk)) await once(out, 'drain');
  out.end();
  await once(out, 'finish');
  return { path, rows, bytes: (await stat(path)).size };
}
