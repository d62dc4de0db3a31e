import { spawn } from 'node:child_process';
import { pathToFileURL } from 'node:url';

/** The project's folder, whatever folder a tool was called from. */
export const projectUrl = new URL('../../', import.meta.url);

/**
 * Says one line of what a tool is doing.
 * @param {string} line
 */
export function say(line) {
  console.log(line);
}

/**
 * True for the file node was asked to run, false for one that is only imported.
 * @param {string} moduleUrl the caller's import.meta.url
 */
export function isCalledDirectly(moduleUrl) {
  const called = process.argv[1];
  return called !== undefined && pathToFileURL(called).href === moduleUrl;
}

/**
 * The value after `--name` on the command line, or undefined.
 * @param {string} name
 * @param {string[]} [words]
 */
export function option(name, words = process.argv.slice(2)) {
  const at = words.indexOf(`--${name}`);
  return at < 0 ? undefined : words[at + 1];
}

/**
 * Runs a command in the project's folder with its output shown as it comes, and gives its exit code. A command that
 * says nothing for `idleMs` is ended with all its children and counts as failed: a download in a closed network
 * waits for ever otherwise.
 * @param {string} command
 * @param {string[]} words
 * @param {{idleMs?: number, env?: NodeJS.ProcessEnv}} [options]
 * @returns {Promise<number>}
 */
export function run(command, words, { idleMs, env } = {}) {
  const watched = idleMs !== undefined;
  const ownGroup = watched && process.platform !== 'win32';
  const child = spawn(command, words, {
    cwd: projectUrl,
    env: { ...process.env, ...env },
    stdio: watched ? ['ignore', 'pipe', 'pipe'] : 'inherit',
    detached: ownGroup
  });
  /** @type {NodeJS.Timeout | undefined} */
  let timer;
  const end = () => {
    say(`${command}: nothing heard for ${String((idleMs ?? 0) / 1000)} s, ended`);
    if (ownGroup && child.pid !== undefined) process.kill(-child.pid, 'SIGKILL');
    else child.kill('SIGKILL');
  };
  const heard = () => {
    clearTimeout(timer);
    if (watched) timer = setTimeout(end, idleMs);
  };
  heard();
  for (const [from, to] of /** @type {const} */ ([
    [child.stdout, process.stdout],
    [child.stderr, process.stderr]
  ])) {
    from?.on('data', (/** @type {Uint8Array} */ bytes) => {
      heard();
      to.write(bytes);
    });
  }
  return new Promise((resolve) => {
    child.on('error', (error) => {
      clearTimeout(timer);
      say(`${command}: ${error.message}`);
      resolve(127);
    });
    child.on('close', (code) => {
      clearTimeout(timer);
      resolve(code ?? 1);
    });
  });
}
