import { MessageChannel } from 'node:worker_threads';
import { afterEach, describe, expect, it } from 'vitest';
import { dropped, WorkerClient } from '#lib/worker/client.ts';
import { serve } from '#lib/worker/engine.ts';
import { StudyDropped } from '#lib/data/workspace/index.ts';
import type { Calls, Port } from '#lib/worker/protocol.ts';

/** Node's own message port clones like a browser's, so that what cannot cross the thread fails here. */
const open: { close: () => void }[] = [];
afterEach(() => {
  for (const port of open.splice(0)) port.close();
});

function channel(): [Port, Port] {
  const { port1, port2 } = new MessageChannel();
  open.push(port1, port2);
  const asPort = (port: typeof port1): Port => ({
    postMessage: (message) => port.postMessage(message),
    addEventListener: (_type, listener) =>
      port.on('message', (data: unknown) => listener(new MessageEvent<unknown>('message', { data })))
  });
  return [asPort(port1), asPort(port2)];
}

function clientOf(handlers: Partial<Calls>, onState: () => void = () => undefined) {
  const [near, far] = channel();
  const tell = serve(far, Promise.resolve(handlers as Calls));
  return { client: new WorkerClient(near, onState), tell };
}

describe('the worker protocol', () => {
  it('gives the answer to the one who asked', async () => {
    const { client } = clientOf({
      account: (id) =>
        new Promise((resolve) => setTimeout(() => resolve({ name: id } as never), id === 'slow' ? 20 : 1))
    });
    const answers = await Promise.all([client.call('account', 'slow'), client.call('account', 'fast')]);
    expect(answers).toEqual([{ name: 'slow' }, { name: 'fast' }]);
  });

  it('hands a failure over with its name and its words', async () => {
    const { client } = clientOf({
      account: () => Promise.reject(new RangeError('file: x, need one in hand'))
    });
    await expect(client.call('account', 'x')).rejects.toMatchObject({
      name: 'WorkerFailure',
      code: 'RangeError',
      message: 'file: x, need one in hand'
    });
  });

  it('drops a question that a newer one in its slot has overtaken, and works on the newest only', async () => {
    const worked: string[] = [];
    const { client } = clientOf({
      sheet: (asked) => {
        worked.push(asked.address);
        return Promise.resolve(null);
      }
    });
    const first = client.ask('page', 'sheet', { address: 'old' });
    const second = client.ask('page', 'sheet', { address: 'new' });
    const other = client.ask('elsewhere', 'sheet', { address: 'other' });
    expect(await first).toBe(dropped);
    expect(await second).toBeNull();
    expect(await other).toBeNull();
    expect(worked.sort()).toEqual(['new', 'other']);
  });

  it('answers what else is asked while a study rests', async () => {
    const order: string[] = [];
    const { client } = clientOf({
      groupCauses: async (_asked, { rest }) => {
        for (let turn = 0; turn < 50; turn++) await rest();
        order.push('study');
        return { causes: [], looked: 0 };
      },
      sheet: () => {
        order.push('quick');
        return Promise.resolve(null);
      }
    });
    const study = client.ask('study', 'groupCauses', { filter: {} });
    const quick = client.ask('page', 'sheet', { address: 'x' });
    expect(await quick).toBeNull();
    expect(await study).toEqual({ causes: [], looked: 0 });
    expect(order).toEqual(['quick', 'study']);
  });

  it('tells a study that was withdrawn that nobody waits for it', async () => {
    let turns = 0;
    const { client } = clientOf({
      groupCauses: async (_asked, { rest, isDropped }) => {
        while (!isDropped()) {
          turns++;
          await rest();
        }
        throw new StudyDropped('study: let go');
      }
    });
    const study = client.ask('study', 'groupCauses', { filter: {} });
    await new Promise((resolve) => setTimeout(resolve, 5));
    client.withdraw('study');
    expect(await study).toBe(dropped);
    expect(turns).toBeGreaterThan(0);
  });

  it('tells the state whenever the worker has news', async () => {
    let told = 0;
    const { client, tell } = clientOf({ account: () => Promise.resolve(null) }, () => told++);
    tell({ version: 1 } as never);
    await client.call('account', 'x');
    expect(told).toBe(1);
  });
});
