/** Brings node_modules to the state the lockfile asks for; does nothing where it is there already. */
import { existsSync, readFileSync } from 'node:fs';
import { isCalledDirectly, projectUrl, run, runDownload, say } from './process.js';

const neededNode = [20, 19];
const idleMs = 180_000;

/**
 * What is wrong with this version of Node, or null.
 * @param {string} [version] such as 20.19.0
 */
export function nodeFault(version = process.versions.node) {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  const [needMajor = 0, needMinor = 0] = neededNode;
  const enough = major > needMajor || (major === needMajor && minor >= needMinor);
  return enough
    ? null
    : `Node ${version}: Gaugebook needs Node ${neededNode.join('.')} or newer (nodejs.org)`;
}

/**
 * @typedef {{version?: string, integrity?: string, optional?: boolean, devOptional?: boolean, peer?: boolean}} Locked
 * @typedef {Record<string, Locked>} Packages
 */

/**
 * @param {URL} url
 * @returns {Packages}
 */
function readPackages(url) {
  return JSON.parse(readFileSync(url, 'utf8')).packages ?? {};
}

/**
 * The first difference between what the lockfile asks for and what npm wrote down as installed, or null. Packages for
 * other systems are optional and may be absent.
 * @param {Packages} wanted
 * @param {Packages} installed
 * @param {(path: string) => boolean} isThere
 */
export function installFault(wanted, installed, isThere) {
  for (const [path, need] of Object.entries(wanted)) {
    if (path === '') continue;
    const have = installed[path];
    if (have === undefined) {
      if (need.optional === true) continue;
      return `${path} is not installed`;
    }
    if (have.version !== need.version || have.integrity !== need.integrity) {
      return `${path} is version ${String(have.version)}, the lockfile asks for ${String(need.version)}`;
    }
    if (!isThere(path)) return `${path} is missing from the folder`;
  }
  const extra = Object.keys(installed).find((path) => wanted[path] === undefined);
  return extra === undefined ? null : `${extra} is installed, but not in the lockfile`;
}

function presentFault() {
  const marker = new URL('node_modules/.package-lock.json', projectUrl);
  if (!existsSync(marker)) return 'nothing is installed yet';
  return installFault(readPackages(new URL('package-lock.json', projectUrl)), readPackages(marker), (path) =>
    existsSync(new URL(`${path}/package.json`, projectUrl))
  );
}

/** npm as the caller has it: the same one that runs this script, else the first on the path. */
function npmCommand() {
  const script = process.env['npm_execpath'];
  return script?.endsWith('npm-cli.js') === true ? [process.execPath, script] : ['npm'];
}

/**
 * Installs what is missing by `npm ci`, without running any package's install script.
 * @returns {Promise<boolean>} false when it could not be done; the reason is printed
 */
export async function ensureInstalled() {
  const fault = nodeFault();
  if (fault !== null) {
    say(fault);
    return false;
  }
  const missing = presentFault();
  if (missing !== null) {
    say(
      `Packages: ${missing}. Installing exactly what package-lock.json names (npm ci), about 200 MB on disk.`
    );
    const [command = 'npm', ...words] = npmCommand();
    // NODE_ENV=production would leave the build tools out.
    const code = await runDownload(
      command,
      [...words, 'ci', '--include=dev', '--ignore-scripts', '--loglevel=http'],
      {
        idleMs,
        quiet: true
      }
    );
    if (code !== 0) {
      say('Packages could not be installed: npm ci failed, see above. It needs a way to an npm registry.');
      return false;
    }
  }
  if (missing === null && existsSync(new URL('.svelte-kit/tsconfig.json', projectUrl))) return true;
  // Editor, linter and type check read the configuration that this writes.
  return (await run(process.execPath, ['node_modules/@sveltejs/kit/svelte-kit.js', 'sync'])) === 0;
}

if (isCalledDirectly(import.meta.url)) process.exitCode = (await ensureInstalled()) ? 0 : 1;
