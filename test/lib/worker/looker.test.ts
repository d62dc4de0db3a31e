import { afterEach, describe, expect, it } from 'vitest';
import { inspect, type LookElsewhere } from '#lib/data/workspace/index.ts';
import { lookThrough, serveLooks } from '#lib/worker/looker.ts';

const header =
  'Ticket,End time,Station,Tail,Volume (L),Density (kg/m3),Arrival fuel (kg),Departure fuel (kg),Water test';
const rows = Array.from({ length: 30_000 }, (_, row) => {
  const day = String(1 + (row % 28)).padStart(2, '0');
  return `T${row},${day}/03/2025 10:${String(row % 60).padStart(2, '0')},JARV,Q7-KEA,${2000 + row},801.5,2000,3700,ok`;
});
const source = { name: 'march.csv', blob: new Blob([[header, ...rows].join('\n')]) };

const ports: MessagePort[] = [];

/** The two ends, the further one served unless told otherwise. */
function connected(serves = true): LookElsewhere {
  const { port1, port2 } = new MessageChannel();
  ports.push(port1, port2);
  if (serves) serveLooks(port2, () => new Promise((resolve) => setTimeout(resolve)));
  port1.start();
  port2.start();
  return lookThrough(port1);
}

afterEach(() => {
  for (const port of ports.splice(0)) port.close();
});

const here = { remembered: () => Promise.resolve(null), stations: [] };

describe('a file looked at in another thread', () => {
  it('is found to be what it is found to be in this one', async () => {
    const told: number[] = [];
    const inspection = await connected()(source, {
      stations: [],
      onProgress: (bytes) => void told.push(bytes)
    });
    expect(inspection).toEqual(await inspect(source, here));
    expect(told.at(-1)).toBe(source.blob.size);
  });

  it('is looked at by the answers in hand', async () => {
    const answers = [{ id: 'column:0', answer: 'flight' }];
    const inspection = await connected()(source, { stations: [], answers });
    expect(inspection).toEqual(await inspect(source, { ...here, answers }));
    expect(inspection.columns[0]?.field).toBe('flight');
  });

  it('is given up when it is to stop', async () => {
    const inspection = await connected()(source, { stations: [], shouldStop: () => true });
    expect(inspection.problem).toBe('stopped');
  });

  it('is looked at here where the other thread says nothing', async () => {
    expect(await connected(false)(source, { stations: [] })).toEqual(await inspect(source, here));
  });

  it('tells of an error there', async () => {
    const broken = { name: 'x', blob: null as unknown as Blob };
    await expect(connected()(broken, { stations: [] })).rejects.toThrow('null');
  });
});
