/** Fates of a record read; together they add up to the records of the file. */
export const fates = ['header', 'used', 'setAside', 'refused', 'skipped'] as const;
export type Fate = (typeof fates)[number];

export const fateWords: Record<Fate, string> = {
  header: 'header',
  used: 'used',
  setAside: 'set aside',
  refused: 'refused',
  skipped: 'skipped'
};
