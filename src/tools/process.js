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
 * Ends a child with all its children. One that has no group of its own dies alone.
 * @param {import('node:child_process').ChildProcess} child
 * @param {boolean} ownGroup
 */
function kill(child, ownGroup) {
  if (ownGroup && child.pid !== undefined) process.kill(-child.pid, 'SIGKILL');
  else child.kill('SIGKILL');
}

/**
 * The exit code of a child, 127 where it could not be started.
 * @param {import('node:child_process').ChildProcess} child
 * @returns {Promise<number>}
 */
function exitCode(child) {
  return new Promise((resolve) => {
    child.on('error', (error) => {
      say(error.message);
      resolve(127);
    });
    child.on('close', (code) => resolve(code ?? 1));
  });
}

/**
 * Runs a command in the project's folder with its output shown as it comes, and gives its exit code.
 * @param {string} command
 * @param {string[]} words
 */
export function run(command, words) {
  return exitCode(spawn(command, words, { cwd: projectUrl, stdio: 'inherit' }));
}

/**
 * The same for a command that loads something: one that says nothing for `idleMs` is ended with all its children and
 * counts as failed, because a download in a closed network waits for ever otherwise. With `quiet` its last lines are
 * shown, and only when it failed.
 * @param {string} command
 * @param {string[]} words
 * @param {{idleMs: number, quiet?: boolean, env?: NodeJS.ProcessEnv}} options
 */
export async function runDownload(command, words, { idleMs, quiet = false, env }) {
  const ownGroup = process.platform !== 'win32';
  const child = spawn(command, words, {
    cwd: projectUrl,
    env: { ...process.env, ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
    detached: ownGroup
  });
  const idle = setTimeout(() => {
    say(`${command}: nothing heard for ${String(idleMs / 1000)} s, ended`);
    kill(child, ownGroup);
  }, idleMs);
  // A child with a group of its own does not hear Ctrl-C.
  const interrupted = () => {
    kill(child, ownGroup);
    process.exit(130);
  };
  process.once('SIGINT', interrupted);
  let kept = '';
  for (const stream of [child.stdout, child.stderr]) {
    stream.on('data', (/** @type {Uint8Array} */ bytes) => {
      idle.refresh();
      if (quiet) kept = (kept + String(bytes)).slice(-keptCharacters);
      else process.stdout.write(bytes);
    });
  }
  const code = await exitCode(child);
  clearTimeout(idle);
  process.removeListener('SIGINT', interrupted);
  if (code !== 0 && quiet) say(kept);
  return code;
}
