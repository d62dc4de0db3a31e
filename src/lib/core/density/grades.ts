import { density15 } from './correction.ts';
import type { Edition } from './editions.ts';

/** How well a limit is known: the document read in a public copy, read about elsewhere, or not confirmed. */
export const confidences = ['publicCopy', 'secondarySource', 'fromMemory'] as const;

export type Confidence = (typeof confidences)[number];

export interface GradeLimits {
  readonly title: string;
  /** Spellings files use; case, spaces and punctuation do not matter. */
  readonly words: readonly string[];
  /** Density limits at `limitsAtC`, kg/m3; NaN where the specification sets none or it is not known here. */
  readonly minimumKgM3: number;
  readonly maximumKgM3: number;
  readonly limitsAtC: 15 | 20;
  readonly confidence: Confidence;
  readonly source: string;
}

/** Density limits of the grades an airliner meets. The specification in force prevails over this table. */
export const gradeLimits = {
  jetA1: {
    title: 'Jet A-1',
    words: ['Jet A-1', 'Jet A1', 'JetA1', 'A-1', 'A1', 'AVTUR', 'F-35', 'Jet A-1 SAF', 'SAF Jet A-1'],
    minimumKgM3: 775,
    maximumKgM3: 840,
    limitsAtC: 15,
    confidence: 'publicCopy',
    source: 'AFQRJOS joint check list, issues 27 to 30; Def Stan 91-091, ASTM D1655'
  },
  jetA: {
    title: 'Jet A',
    words: ['Jet A', 'JetA', 'F-24'],
    minimumKgM3: 775,
    maximumKgM3: 840,
    limitsAtC: 15,
    confidence: 'publicCopy',
    source: 'ASTM D1655'
  },
  jp8: {
    title: 'JP-8',
    words: ['JP-8', 'F-34'],
    minimumKgM3: 775,
    maximumKgM3: 840,
    limitsAtC: 15,
    confidence: 'publicCopy',
    source: 'MIL-HDBK-1022A 2.3.2; 37 to 51 degrees API'
  },
  jp5: {
    title: 'JP-5',
    words: ['JP-5', 'F-44', 'AVCAT'],
    minimumKgM3: 788,
    maximumKgM3: 845,
    limitsAtC: 15,
    confidence: 'publicCopy',
    source: 'MIL-HDBK-1022A 2.3.2'
  },
  jetB: {
    title: 'Jet B, JP-4',
    words: ['Jet B', 'JetB', 'JP-4', 'F-40'],
    minimumKgM3: 751,
    maximumKgM3: 802,
    limitsAtC: 15,
    confidence: 'publicCopy',
    source: 'MIL-HDBK-1022A 2.3.2'
  },
  ts1: {
    title: 'TS-1',
    words: ['TS-1', 'TS1', 'ТС-1'],
    minimumKgM3: 775,
    maximumKgM3: NaN,
    limitsAtC: 20,
    confidence: 'fromMemory',
    source: 'GOST 10227, first grade; the top grade has 780 at 20 C; from memory'
  },
  no3: {
    title: 'No. 3 jet fuel',
    words: ['No. 3', 'No.3 jet fuel', 'No 3 Jet', 'Number 3 jet fuel', 'RP-3', 'Jet fuel No. 3'],
    minimumKgM3: 775,
    maximumKgM3: 830,
    limitsAtC: 20,
    confidence: 'fromMemory',
    source: 'GB 6537, from memory'
  }
} as const satisfies Readonly<Record<string, GradeLimits>>;

export type GradeCode = keyof typeof gradeLimits;

export const isGradeCode = (text: string): text is GradeCode => Object.hasOwn(gradeLimits, text);

export const gradeCodes: readonly GradeCode[] = Object.keys(gradeLimits).filter(isGradeCode);

export interface DensityRange {
  readonly minimumKgM3: number;
  readonly maximumKgM3: number;
}

/**
 * Density limits of a grade at 15 C, kg/m3, NaN where there is none. Limits that a specification sets at 20 C
 * are carried to 15 C by the tables.
 */
export function gradeDensityAt15(grade: GradeCode, edition: Edition): DensityRange {
  const limits: GradeLimits = gradeLimits[grade];
  if (limits.limitsAtC === 15) return { minimumKgM3: limits.minimumKgM3, maximumKgM3: limits.maximumKgM3 };
  return {
    minimumKgM3: density15(limits.minimumKgM3, limits.limitsAtC, edition),
    maximumKgM3: density15(limits.maximumKgM3, limits.limitsAtC, edition)
  };
}

const bare = (text: string): string =>
  text
    .normalize('NFKC')
    .toUpperCase()
    .replace(/[^\p{L}\p{N}]/gu, '');

const gradesByName = new Map<string, GradeCode>(
  gradeCodes.flatMap((code) => [code, ...gradeLimits[code].words].map((word) => [bare(word), code] as const))
);

/**
 * The grade a text names, or undefined.
 *
 * Example: `gradeNamed('JET A1')` is 'jetA1'.
 */
export const gradeNamed = (text: string): GradeCode | undefined => gradesByName.get(bare(text));
