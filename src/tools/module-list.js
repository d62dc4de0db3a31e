/**
 * Writes down at build time which module went into which file, so that the bundle gate can name the packages that
 * reach the browser. The files are named after the environment and entry, as page and workers are built apart.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { countNetworkNames } from './network-names.js';
import { projectUrl } from './process.js';

/** Where the lists lie. */
export const moduleListUrl = new URL('.svelte-kit/bundle-modules/', projectUrl);

/**
 * @typedef {{id: string, bytes: number, network: Record<string, number>}} ListedModule
 *   bytes: rendered size before minifying; network: names of network interfaces met in it, each with its count
 * @typedef {{file: string, imports: string[], dynamicImports: string[], modules: ListedModule[], from: string[]}} ListedFile
 *   from: source files of what is not script
 */

/** @param {string} id */
const inProject = (id) =>
  id.startsWith('/') ? relative(fileURLToPath(projectUrl), id) : id.replace('\0', 'virtual:');

/**
 * @param {import('vite').Rolldown.OutputBundle[string]} output
 * @param {(code: string) => unknown} parse
 * @returns {ListedFile}
 */
function listFile(output, parse) {
  if (output.type === 'asset') {
    const from = output.originalFileNames.map((name) => inProject(name));
    return { file: output.fileName, imports: [], dynamicImports: [], modules: [], from };
  }
  const modules = Object.entries(output.modules)
    .filter(([, { renderedLength }]) => renderedLength > 0)
    .map(([id, { code, renderedLength }]) => ({
      id: inProject(id),
      bytes: renderedLength,
      network: countNetworkNames(parse(code ?? ''))
    }));
  return {
    file: output.fileName,
    imports: output.imports,
    dynamicImports: output.dynamicImports,
    modules,
    from: []
  };
}

/**
 * @param {'page' | 'worker'} kind
 * @returns {import('vite').Plugin}
 */
export function moduleList(kind) {
  return {
    name: `gaugebook-module-list-${kind}`,
    apply: 'build',
    enforce: 'post',
    generateBundle: {
      // Last, when Vite has removed the chunks that held styles only.
      order: 'post',
      handler(_, bundle) {
        if (this.environment.name !== 'client') return;
        const outputs = Object.values(bundle);
        const entry = outputs.find((output) => output.type === 'chunk' && output.isEntry);
        const files = outputs.map((output) => listFile(output, (code) => this.parse(code)));
        mkdirSync(moduleListUrl, { recursive: true });
        const name = kind === 'page' ? kind : `${kind}-${entry?.type === 'chunk' ? entry.name : 'unnamed'}`;
        writeFileSync(new URL(`${name}.json`, moduleListUrl), JSON.stringify(files, null, 1));
      }
    }
  };
}
