import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from '@playwright/test';
import type { AxeResults, Result } from 'axe-core';
import { expect } from './fixture.ts';

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

function lines(results: readonly Result[]): string[] {
  return results.flatMap(({ id, help, nodes }) =>
    nodes.map(({ target, any, all, none }) => {
      const why = [...any, ...all, ...none].map(({ message }) => message).join('; ');
      return `${id} (${help}) at ${target.join(' ')}: ${why}`;
    })
  );
}

/**
 * Fails on every WCAG 2.2 A or AA rule that axe sees broken, and on every one it could not decide, unless `explained`
 * has the rule's id with the reason it is met all the same.
 */
export async function axeScan(page: Page, explained: Readonly<Record<string, string>> = {}): Promise<void> {
  // Evaluated through the debugger, which the page's policy does not bind; a script tag would be refused.
  await page.evaluate(axeSource);
  const results = await page.evaluate<AxeResults>(`axe.run(document, ${JSON.stringify({ runOnly: tags })})`);
  expect(results.passes.length, 'rules that axe found something to judge by').toBeGreaterThan(0);
  const undecided = results.incomplete.filter(({ id }) => explained[id] === undefined);
  expect(lines(results.violations), 'WCAG rules broken').toEqual([]);
  expect(lines(undecided), 'WCAG rules that axe could not decide').toEqual([]);
}
