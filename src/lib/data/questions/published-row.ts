/** A published value and how this program makes the same. */
export interface PublishedRow {
  readonly part: 'density' | 'units' | 'reconciliation';
  readonly what: string;
  readonly source: string;
  readonly unit: string;
  readonly published: number;
  readonly decimals: number;
  readonly compute: () => number;
  /** Units of the last published digit that the source's own rounding explains; half a unit if left out. */
  readonly within?: number;
}
