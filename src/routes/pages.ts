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
  { path: '/records/', name: 'Records', mark: 'R-1' }
];

/** The page at a path that is not in the index too: one uplift is reached from its record. */
export const upliftPage: BookPage = { path: '/uplift/', name: 'One uplift', mark: 'R-2' };
