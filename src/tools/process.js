import { spawn } from 'node:child_process';
import { pathToFileURL } from 'node:url';

const keptCharacters = 4000;

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
 * waits for ever otherwise. With `quiet` its last lines are shown, and only when it failed.
 * @param {string} command
 * @param {string[]} words
 * @param {{idleMs?: number, quiet?: boolean, env?: NodeJS.ProcessEnv}} [options]
 * @returns {Promise<number>}
 */
export function run(command, words, { idleMs, quiet = false, env } = {}) {
  const watched = idleMs !== undefined;
  const ownGroup = watched && process.platform !== 'win32';
  const child = spawn(command, words, {
    cwd: projectUrl,
    env: { ...process.env, ...env },
    stdio: watched ? ['ignore', 'pipe', 'pipe'] : 'inherit',
    detached: ownGroup
  });
  let kept = '';
  /** @type {NodeJS.Timeout | undefined} */
  let timer;
  const kill = () => {
    if (ownGroup && child.pid !== undefined) process.kill(-child.pid, 'SIGKILL');
    else child.kill('SIGKILL');
  };
  const end = () => {
    say(`${command}: nothing heard for ${String((idleMs ?? 0) / 1000)} s, ended`);
    kill();
  };
  // A child with a group of its own does not hear Ctrl-C.
  const interrupted = () => {
    kill();
    process.exit(130);
  };
  if (ownGroup) process.once('SIGINT', interrupted);
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
      if (quiet) kept = (kept + String(bytes)).slice(-keptCharacters);
      else to.write(bytes);
    });
  }
  return new Promise((resolve) => {
    /** @param {number} code */
    const done = (code) => {
      clearTimeout(timer);
      process.removeListener('SIGINT', interrupted);
      if (quiet && code !== 0) say(kept);
      resolve(code);
    };
    child.on('error', (error) => {
      say(`${command}: ${error.message}`);
      done(127);
    });
    child.on('close', (code) => done(code ?? 1));
  });
}
