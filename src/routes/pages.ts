import type { PagePath } from '#lib/state/address.svelte.ts';

/** One page of the book: where it is, what it is called and the mark on its stub. */
export interface BookPage {
  readonly path: PagePath;
  readonly name: string;
  readonly mark: string;
}

/** The pages in the order of the index. */
export const pages: readonly BookPage[] = [
  { path: '/', name: 'What needs a look', mark: 'N-1' },
  { path: '/files/', name: 'Source files', mark: 'F-1' },
  { path: '/stations/', name: 'Stations', mark: 'S-1' },
  { path: '/aircraft/', name: 'Aircraft', mark: 'A-1' },
  { path: '/vehicles/', name: 'Vehicles', mark: 'V-1' },
  { path: '/aircraft-vehicle/', name: 'Aircraft × vehicle', mark: 'X-1' },
  { path: '/trend/', name: 'Trend', mark: 'T-1' },
  { path: '/suppliers/', name: 'Compare suppliers', mark: 'S-2' },
  { path: '/density/', name: 'Density', mark: 'D-1' },
  { path: '/samples/', name: 'Samples', mark: 'C-1' },
  { path: '/records/', name: 'Records', mark: 'R-1' },
  { path: '/limits/', name: 'Limits and settings', mark: 'L-1' },
  { path: '/method/', name: 'Method', mark: 'M-1' }
];

/** Not in the index: one uplift is reached from its record. */
export const upliftPage: BookPage = { path: '/uplift/', name: 'One uplift', mark: 'R-2' };

/** What the demo asks its reader: reached while the demo is open. */
export const demoPage: BookPage = { path: '/demo/', name: 'Sixteen questions', mark: 'Q-1' };

/** Every page, the index's first. */
export const everyPage: readonly BookPage[] = [...pages, upliftPage, demoPage];

/** The page at a path. Throws on a path without a page. */
export function pageAt(path: PagePath): BookPage {
  const page = everyPage.find((each) => each.path === path);
  if (page === undefined) throw new RangeError(`page: ${path}, need one of the book`);
  return page;
}
