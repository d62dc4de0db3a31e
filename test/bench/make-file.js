/** Makes the file to measure with: the demo's generator, bundled for Node, writes so many rows of one seed. */
import { createWriteStream } from 'node:fs';
import { mkdir } from 'node:fs/promises';
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
 * Makes a table of so many rows and parts it into files of equal size, each under the header.
 * @param {number} rows
 * @param {number} count of files
 * @returns {Promise<string[]>} their paths
 */
export async function makeFiles(rows, count) {
  await mkdir(workFolder, { recursive: true });
  const script = join(workFolder, 'demo.mjs');
  await bundle('src/lib/demo/index.ts', script, 'node');
  const { benchmarkFile } = await import(pathToFileURL(script).href);
  /** @type {{name: string, chunks: () => Iterable<string>}} */
  const file = benchmarkFile(rows);
  /** @type {string[]} */
  const paths = [];
  let header = '';
  let made = 0;
  /** @type {import('node:fs').WriteStream | null} */
  let out = null;
  const close = async () => {
    if (out === null) return;
    out.end();
    await once(out, 'finish');
  };
  for (const chunk of file.chunks()) {
    const start = header === '' ? chunk.indexOf('\n') + 1 : 0;
    if (header === '') header = chunk.slice(0, start);
    // A file ends with the chunk that fills it: parts need not be equal to the row.
    if (out === null || (paths.length < count && made >= (rows / count) * paths.length)) {
      await close();
      const path = join(workFolder, count === 1 ? file.name : `${paths.length + 1}-of-${count}-${file.name}`);
      paths.push(path);
      out = createWriteStream(path);
      out.write(header);
    }
    const body = chunk.slice(start);
    made += body.split('\n').length - 1;
    if (!out.write(body)) await once(out, 'drain');
  }
  await close();
  return paths;
}
