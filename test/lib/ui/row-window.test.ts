import { describe, expect, it } from 'vitest';
import type { Row } from '#lib/charts/twin.ts';
import { RowWindow } from '#lib/ui/row-window.svelte.ts';

const rowsFrom = (start: number, count: number, name = 'r'): Row[] =>
  Array.from({ length: count }, (_, i) => ({ key: `${name}${start + i}`, cells: [] }));
const settled = () => new Promise((resolve) => setTimeout(resolve, 0));

describe('RowWindow', () => {
  it('asks for what is in view and gives it by place in the list', async () => {
    const asked: number[] = [];
    const list = new RowWindow();
    list.use((start, count) => {
      asked.push(start);
      return Promise.resolve(rowsFrom(start, count));
    });
    list.want(100, 140);
    await settled();
    expect(list.row(130)?.key).toBe('r130');
    expect(list.row(900)).toBeUndefined();
    expect(asked).not.toContain(896);
  });

  it('asks only for the latest wish after a wait, however often the view moved', async () => {
    const asked: number[] = [];
    let answer: (() => void) | undefined;
    const list = new RowWindow();
    list.want(0, 30);
    list.use((start, count) => {
      asked.push(start);
      return new Promise((resolve) => (answer = () => resolve(rowsFrom(start, count))));
    });
    for (let row = 1000; row <= 4_000_000; row += 40_000) list.want(row, row + 30);
    answer?.();
    await settled();
    expect(asked).toHaveLength(2);
    expect(asked[1]).toBe(Math.floor(3_961_000 / 64) * 64);
  });

  it('drops the answer of a list that was replaced', async () => {
    const waiting: (() => void)[] = [];
    const list = new RowWindow();
    const source = (name: string) => (start: number, count: number) =>
      new Promise<Row[]>((resolve) => waiting.push(() => resolve(rowsFrom(start, count, name))));
    list.want(0, 10);
    list.use(source('old'));
    list.use(source('new'));
    waiting[0]?.();
    await settled();
    expect(list.row(0)).toBeUndefined();
    waiting[1]?.();
    await settled();
    expect(list.row(0)?.key).toBe('new0');
  });

  it('says when rows could not be read, and asks again at the next wish', async () => {
    let fail = true;
    const list = new RowWindow();
    list.want(0, 10);
    list.use((start, count) =>
      fail ? Promise.reject(new Error('gone')) : Promise.resolve(rowsFrom(start, count))
    );
    await settled();
    expect(list.failed).toBe(true);
    fail = false;
    list.want(0, 11);
    await settled();
    expect(list.failed).toBe(false);
    expect(list.row(5)?.key).toBe('r5');
  });
});
