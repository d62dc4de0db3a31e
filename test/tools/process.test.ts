import { describe, expect, it } from 'vitest';
import { option, run, runDownload } from '../../src/tools/process.js';

const node = process.execPath;

describe('running a command', () => {
  it('gives its exit code, and 127 for one that is not there', async () => {
    expect(await run(node, ['-e', 'process.exit(3)'])).toBe(3);
    expect(await run('no-such-command-here', [])).toBe(127);
  });

  it('ends a download that says nothing, with the children it started', async () => {
    const grandchild =
      "require('child_process').spawn(process.execPath, ['-e', 'setTimeout(() => {}, 20000)'], {stdio: 'inherit'})";
    const start = performance.now();
    expect(await runDownload(node, ['-e', grandchild], { idleMs: 500 })).not.toBe(0);
    expect(performance.now() - start).toBeLessThan(5000);
  });

  it('does not end one that goes on telling', async () => {
    const telling =
      'let n = 0; const t = setInterval(() => { console.log(n); if (++n > 5) clearInterval(t); }, 200)';
    expect(await runDownload(node, ['-e', telling], { idleMs: 900, quiet: true })).toBe(0);
  });
});

describe('an option', () => {
  it('is the word after its name', () => {
    expect(option('port', ['--plain', '--port', '4180'])).toBe('4180');
    expect(option('port', ['--plain'])).toBeUndefined();
  });
});
