import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { defaultSettings } from '#lib/data/settings/index.ts';
import { memoryStore, type Store } from '#lib/data/store/index.ts';
import { openWindow, type Window } from './window.ts';

const header = 'ticket,time (UTC),station,tail,volume (L)';
const texts = ['1', '2', '3'].map(
  (n) => `${header}\nT${n},2031-07-0${n}T10:00:00Z,JARV,Q7-KE${n},1000${n}\n`
);

/**
 * One store that two windows see, each call of which waits until the scheduler lets it go, and the word that goes to
 * the other window at each change.
 */
function sharedStore(scheduler: fc.Scheduler) {
  const kept = memoryStore();
  const watchers: (() => void)[] = [];
  function storeOf(window: number): Store {
    const wait = (label: string) => scheduler.schedule(Promise.resolve(), `window ${window}: ${label}`);
    const change =
      <Given extends unknown[]>(label: string, call: (...given: Given) => Promise<void>) =>
      async (...given: Given) => {
        await wait(label);
        await call(...given);
        watchers.forEach((tell, other) => {
          if (other !== window) tell();
        });
      };
    return {
      ...kept,
      watch: (onChange) => (watchers[window] = onChange),
      files: () => wait('files').then(kept.files),
      columns: (id) => wait('columns').then(() => kept.columns(id)),
      layout: (fingerprint) => wait('layout').then(() => kept.layout(fingerprint)),
      putFile: change('putFile', kept.putFile),
      putColumns: (columns) => wait('putColumns').then(() => kept.putColumns(columns)),
      putSettings: change('putSettings', kept.putSettings),
      removeFile: change('removeFile', kept.removeFile)
    };
  }
  return { kept, storeOf };
}

/** Lets go of one waiting call after the other, in the scheduler's order, until all work is done. */
async function inAnyOrder(scheduler: fc.Scheduler, work: Promise<unknown>): Promise<void> {
  const turn = () => new Promise<'turn'>((resolve) => setTimeout(() => resolve('turn'), 0));
  while ((await Promise.race([work, turn()])) === 'turn') {
    if (scheduler.count() > 0) await scheduler.waitNext(1);
  }
}

const command = fc.oneof(
  fc.record({ kind: fc.constant('add' as const), which: fc.nat(2) }),
  fc.record({ kind: fc.constant('remove' as const), which: fc.nat(2) }),
  fc.record({ kind: fc.constant('set' as const), which: fc.nat(2) })
);
type Command = typeof command extends fc.Arbitrary<infer C> ? C : never;

async function perform({ workspace, take, settled }: Window, { kind, which }: Command): Promise<void> {
  const name = `${which}.csv`;
  if (kind === 'add') await take(texts[which] ?? '', name);
  else if (kind === 'set') {
    await workspace.changeSettings({
      ...defaultSettings,
      method: { ...defaultSettings.method, joinMinutes: 60 + which }
    });
  } else {
    const gone = workspace.state.files.find((file) => file.name === name);
    if (gone !== undefined) await workspace.removeFile(gone.id);
    await settled();
  }
}

async function performAll(window: Window, commands: readonly Command[]): Promise<void> {
  await window.workspace.restore();
  for (const each of commands) await perform(window, each);
  await window.settled();
}

describe('two windows at work on one store at the same time', () => {
  const commands = fc.array(command, { maxLength: 4 });

  it('lose no record, double none, and each is told of what the other changed', async () => {
    let together = 0;
    await fc.assert(
      fc.asyncProperty(fc.scheduler(), commands, commands, async (scheduler, left, right) => {
        const { kept, storeOf } = sharedStore(scheduler);
        const windows = [
          openWindow(storeOf(0), { openedMs: 1 }),
          openWindow(storeOf(1), { openedMs: 2 })
        ] as const;
        await inAnyOrder(
          scheduler,
          Promise.all([performAll(windows[0], left), performAll(windows[1], right)])
        );

        const later = openWindow(kept, { openedMs: 3 });
        await later.workspace.restore();
        const { files, recordsUsed } = await later.settled();
        const used = files.filter(({ status }) => status === 'used').map(({ name }) => name);
        expect(used).toEqual([...new Set(used)]);
        expect(recordsUsed).toBe(used.length);
        for (const which of [0, 1, 2]) {
          const isOf = (kind: Command['kind']) => (each: Command) =>
            each.kind === kind && each.which === which;
          const both = [...left, ...right];
          if (both.some(isOf('remove'))) continue;
          expect(used.includes(`${which}.csv`)).toBe(both.some(isOf('add')));
        }
        // A file that is not used says why.
        expect(files.every(({ status, problem }) => status === 'used' || problem !== null)).toBe(true);

        const others = [right, left] as const;
        windows.forEach(({ workspace }, i) => {
          const isChanged = (others[i] ?? []).some(({ kind }) => kind !== 'remove');
          if (isChanged) expect(workspace.state.storage.changedElsewhere).toBe(true);
        });
        if (left.length > 0 && right.length > 0) together++;
      }),
      { numRuns: 40 }
    );
    expect(together).toBeGreaterThan(10);
  });
});
