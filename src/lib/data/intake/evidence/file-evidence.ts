import type { ColumnSight } from '../header/recognise.ts';
import type { ColumnEvidence } from './gather.ts';

/** What the pass over a file found out: plain data from which layout and questions are settled again and again. */
export interface FileEvidence {
  readonly sights: readonly ColumnSight[];
  readonly columns: readonly ColumnEvidence[];
}
