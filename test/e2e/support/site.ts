import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Page } from '@playwright/test';

/** The built site's folder. */
export const buildFolder = fileURLToPath(new URL('../../../build', import.meta.url));

/** Every page of the built site as a path relative to its root, such as `` for the first and `files/`. */
export function builtPages(): string[] {
  return readdirSync(buildFolder, { recursive: true, encoding: 'utf8' })
    .map((name) => name.replaceAll('\\', '/'))
    .filter((name) => name === 'index.html' || name.endsWith('/index.html'))
    .map((name) => name.slice(0, -'index.html'.length))
    .sort();
}

/** Waits until everything in hand is read and answered. */
export async function waitReady(page: Page): Promise<void> {
  await page.locator('main[data-state=ready]').waitFor();
}

/** A file to import: a path on disk, or a name with its content. */
export type ImportFile =
  string | { readonly name: string; readonly mimeType: string; readonly buffer: Buffer };

/**
 * Imports files by the page's own input and its own button, and waits until they are read. `answers` gives, for each
 * question the files will raise, words of the question and the name of the reading to choose.
 */
export async function importFiles(
  page: Page,
  files: readonly ImportFile[],
  answers: readonly (readonly [question: string, reading: string | RegExp])[] = []
): Promise<void> {
  const input = page.locator('input[type=file][multiple]');
  if ((await input.count()) === 0) await page.goto('files/');
  if (files.every((file) => typeof file === 'string')) await input.setInputFiles([...files]);
  else await input.setInputFiles(files.filter((file) => typeof file !== 'string'));
  for (const [question, reading] of answers) {
    const group = page.getByRole('group', { name: `Question: ${question}` });
    await group.first().getByRole('radio', { name: reading }).check();
  }
  await page
    .getByRole('button', { name: files.length > 1 ? 'Use all files' : 'Use this file', exact: true })
    .click();
  await waitReady(page);
}
