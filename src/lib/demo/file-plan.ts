import { demoMonths } from './calendar.ts';
import { layoutA } from './layouts/layout-a.ts';
import { layoutB } from './layouts/layout-b.ts';
import { layoutC } from './layouts/layout-c.ts';
import type { Layout } from './layouts/layout.ts';
import { layoutOfMonth } from './months.ts';
import { plan } from './plan.ts';

/** One file of the demo before it is written. */
export interface PlannedFile {
  readonly name: string;
  readonly month: number;
  readonly layout: Layout;
  readonly oddity: 'none' | 'same as another' | 'month before day' | 'decimal commas';
}

const usualC = layoutC(false, '.');
const swappedC = layoutC(true, '.');
const commaC = layoutC(false, ',');

function layoutFor(month: number, oddity: PlannedFile['oddity']): Layout {
  const name = layoutOfMonth(month);
  if (name === 'A') return layoutA;
  if (name === 'B') return layoutB;
  if (oddity === 'month before day') return swappedC;
  return oddity === 'decimal commas' ? commaC : usualC;
}

function oddityOf(month: number): PlannedFile['oddity'] {
  if (month === plan.files.swappedMonth) return 'month before day';
  return month === plan.files.commaMonth ? 'decimal commas' : 'none';
}

function nameFor(month: number, isAgain: boolean): string {
  const name = demoMonths[month]?.name ?? '';
  switch (layoutOfMonth(month)) {
    case 'A':
      return `quillon-operations-${name}${isAgain ? '-resent' : ''}.csv`;
    case 'B':
      return `kitevane_uplifts_${name.replace('-', '_')}.csv`;
    case 'C':
      return `uplift list ${name}.tsv`;
  }
}

/** The files in the order they came: eighteen months, and where faults are planted one of them once more. */
export function plannedFiles(faults: boolean): PlannedFile[] {
  const files = demoMonths.map((_, month): PlannedFile => {
    const oddity = faults ? oddityOf(month) : 'none';
    return { name: nameFor(month, false), month, layout: layoutFor(month, oddity), oddity };
  });
  const { twiceMonth } = plan.files;
  if (!faults) return files;
  const oddity = 'same as another';
  return [
    ...files,
    { name: nameFor(twiceMonth, true), month: twiceMonth, layout: layoutFor(twiceMonth, oddity), oddity }
  ];
}
