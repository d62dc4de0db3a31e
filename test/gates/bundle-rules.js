/** The rules of the bundle gate, as functions of lists and texts, so that a test can feed them made-up sites. */

/**
 * @typedef {import('../../src/tools/module-list.js').ListedModule} ListedModule
 * @typedef {import('../../src/tools/module-list.js').ListedFile} ListedFile
 * @typedef {{
 *   licences: string[],
 *   packages: Record<string, {licence: string, why: string}>,
 *   network: {package: string, name: string, count: number, unreachable: string}[],
 *   urls: {start: string, why: string}[]
 * }} Allowed
 * @typedef {{file: string, counts: Record<string, number>, modules: ListedModule[]}} ScriptUse
 */

/** The name under which the project's own modules count. */
export const ownCode = '(own code)';

/**
 * The package a module belongs to; code that a tool writes counts as that tool's.
 * @param {string} id path from the project's folder, or virtual:...
 */
export function packageOf(id) {
  const at = id.lastIndexOf('node_modules/');
  if (at >= 0) {
    const [first = '', second = ''] = id.slice(at + 'node_modules/'.length).split('/');
    return first.startsWith('@') ? `${first}/${second}` : first;
  }
  if (id.startsWith('src/')) return ownCode;
  if (id.startsWith('.svelte-kit/') || id.includes('__sveltekit') || id.includes('virtual:app'))
    return '@sveltejs/kit';
  if (id.startsWith('virtual:vite/') || id.includes('commonjsHelpers')) return 'vite';
  if (/^(virtual:|rolldown\/)?rolldown/.test(id)) return 'rolldown';
  return `(unknown: ${id})`;
}

/**
 * Every package in the files, own code aside, sorted.
 * @param {ListedFile[]} files
 */
export function packagesOf(files) {
  const ids = files.flatMap(({ modules, from }) => [...modules.map(({ id }) => id), ...from]);
  const names = new Set(ids.map(packageOf));
  names.delete(ownCode);
  return [...names].sort();
}

/**
 * @param {ListedModule[]} modules
 * @returns {Map<string, number>}
 */
export function bytesByPackage(modules) {
  const sizes = new Map();
  for (const { id, bytes } of modules) sizes.set(packageOf(id), (sizes.get(packageOf(id)) ?? 0) + bytes);
  return sizes;
}

/**
 * @param {string[]} packages
 * @param {(name: string) => string} licenceOf what the installed package says of itself
 * @param {Allowed} allowed
 */
export function judgePackages(packages, licenceOf, allowed) {
  const faults = [];
  for (const name of packages) {
    const entry = allowed.packages[name];
    const licence = licenceOf(name);
    if (entry === undefined) faults.push(`${name}: reaches the browser, is not in bundle-allowed.json`);
    else if (entry.licence !== licence)
      faults.push(`${name}: licence ${licence}, the list says ${entry.licence}`);
    if (!allowed.licences.includes(licence))
      faults.push(`${name}: licence ${licence}, need one of ${allowed.licences.join(', ')}`);
  }
  return faults;
}

/**
 * Each network name left in a minified script must be found in the modules it was made of, and each package that has
 * one must be listed with that count and the reason it cannot be reached. Own code may have none.
 * @param {ScriptUse[]} uses
 * @param {Allowed} allowed
 * @param {(line: string) => void} [tell]
 */
export function judgeNetwork(uses, allowed, tell = () => undefined) {
  const faults = [];
  /** @type {Map<string, number>} */
  const found = new Map();
  for (const { file, counts, modules } of uses) {
    for (const [name, count] of Object.entries(counts)) {
      const holders = modules.filter(({ network }) => network[name] !== undefined);
      const explained = holders.reduce((sum, { network }) => sum + (network[name] ?? 0), 0);
      if (count > explained)
        faults.push(`${file}: ${name} ${String(count)} times, its modules have ${String(explained)}`);
      for (const { id, network } of holders) {
        const key = `${packageOf(id)} ${name}`;
        found.set(key, (found.get(key) ?? 0) + (network[name] ?? 0));
      }
    }
  }
  tell('\nNetwork names by package:');
  for (const [key, count] of [...found].sort()) {
    const entry = allowed.network.find((one) => `${one.package} ${one.name}` === key);
    tell(`  ${key} x ${String(count)}: ${entry?.unreachable ?? 'NOT LISTED'}`);
    if (key.startsWith(ownCode)) faults.push(`${key}: own code may name no network interface`);
    else if (entry === undefined)
      faults.push(`${key}: ${String(count)} times, is not in bundle-allowed.json`);
    else if (count > entry.count)
      faults.push(`${key}: ${String(count)} times, the list explains ${String(entry.count)}`);
  }
  return faults;
}

/**
 * @param {string} file
 * @param {string} text
 * @param {Allowed} allowed
 */
export function judgeUrls(file, text, allowed) {
  const urls = new Set(text.match(/\b(?:https?|wss?|ftp):\/\/[^\s"'`<>\\)]+/g));
  return [...urls]
    .filter((url) => !allowed.urls.some(({ start }) => url.startsWith(start)))
    .map((url) => `${file}: names ${url}, which is not in bundle-allowed.json`);
}

/**
 * The scripts a page loads before it shows anything: those its markup names, and what they import at once.
 * @param {string} page
 * @param {Map<string, ListedFile>} listed
 */
export function firstPageFiles(page, listed) {
  const waiting = [...page.matchAll(/["'](?:\.\/)?(_app\/[^"']+\.js)["']/g)].map((match) => match[1] ?? '');
  /** @type {Set<string>} */
  const files = new Set();
  for (let file = waiting.pop(); file !== undefined; file = waiting.pop()) {
    if (files.has(file)) continue;
    files.add(file);
    waiting.push(...(listed.get(file)?.imports ?? []));
  }
  return [...files].sort();
}
