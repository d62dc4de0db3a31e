/** The four suppliers; all names invented. */
export const suppliers = {
  ostrel: 'Ostrel Fuels',
  marrowdale: 'Marrowdale Aviation Fuels',
  pellam: 'Pellam & Roe Fuel Services',
  sundrift: 'Sundrift Jet Supply'
} as const;

export type Supplier = (typeof suppliers)[keyof typeof suppliers];

/** One tank farm: the fuel that a supplier holds at a station. Hydrant fuel of two suppliers is one farm. */
export interface Farm {
  readonly station: string;
  readonly suppliers: readonly Supplier[];
  /** Mean density at 15 degC, kg/m3, and the half swing of it over the year. */
  readonly densityKgM3: number;
  readonly swingKgM3: number;
  /** Days between two batches. */
  readonly batchDays: number;
}

function farm(
  station: string,
  names: readonly Supplier[],
  densityKgM3: number,
  batchDays: number,
  swingKgM3 = 1.2
): Farm {
  return { station, suppliers: names, densityKgM3, swingKgM3, batchDays };
}

const { ostrel, marrowdale, pellam, sundrift } = suppliers;

/** Tank farms in the order of stations; JGAL has two. */
export const farms: readonly Farm[] = [
  farm('JARV', [ostrel, marrowdale], 798.5, 6),
  farm('JBEL', [marrowdale], 801.2, 9),
  farm('JCOD', [ostrel], 796.4, 11),
  farm('JDUM', [marrowdale], 803.1, 10),
  farm('JESK', [ostrel], 795.2, 13),
  farm('JFEN', [sundrift], 800.5, 8, 6),
  farm('JGAL', [ostrel], 791.8, 9),
  farm('JGAL', [pellam], 797.3, 9),
  farm('JHOS', [ostrel], 799.6, 30),
  farm('JIVA', [marrowdale], 794.1, 12),
  farm('JKES', [pellam], 800.8, 10),
  farm('JLOM', [marrowdale], 804.6, 9),
  farm('JNER', [marrowdale], 797.9, 12)
];
