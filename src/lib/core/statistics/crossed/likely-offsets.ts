import { normalCdf } from '../distributions.ts';
import type { FittedFactor } from './fit.ts';

export interface LikelyOffset {
  readonly level: number;
  readonly contrast: number;
  readonly contrastError: number;
  /** Chance that the true contrast is beyond the tolerance, either way. */
  readonly chance: number;
}

/**
 * Levels whose effect is likely beyond a practical tolerance, likeliest first: as long a list as keeps the mean
 * chance of naming a level wrongly at most `falseShare`.
 */
export function likelyOffsets(factor: FittedFactor, tolerance: number, falseShare = 0.1): LikelyOffset[] {
  const all = Array.from(factor.contrast, (contrast, level) => {
    const contrastError = factor.contrastError[level] ?? NaN;
    const above = normalCdf((contrast - tolerance) / contrastError);
    const below = normalCdf((-contrast - tolerance) / contrastError);
    return { level, contrast, contrastError, chance: above + below };
  }).filter(({ chance, level }) => chance > 0 && (factor.records[level] ?? 0) > 0);
  all.sort((p, q) => q.chance - p.chance);
  const named: LikelyOffset[] = [];
  let doubt = 0;
  for (const offset of all) {
    doubt += 1 - offset.chance;
    if (doubt / (named.length + 1) > falseShare) break;
    named.push(offset);
  }
  return named;
}
