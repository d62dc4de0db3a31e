/** Holds what the site answered to the reference; every difference is a line of words. */

const quantileKeys = ['q05', 'q25', 'q50', 'q75', 'q95'];
/** The site solves for the density at 15 °C to 1e-9, the reference bisects below that. */
const densityAgreementKgM3 = 1e-6;

/**
 * @param {import('./reference.js').Reference} reference
 * @param {import('./site.js').SiteAnswers} answers
 */
export function differences(reference, answers) {
  /** @type {string[]} */
  const found = [];
  /** @param {string} what @param {unknown} have @param {unknown} need */
  const same = (what, have, need) => {
    if (have !== need) found.push(`${what}: ${String(have)}, need ${String(need)}`);
  };
  const { counts } = answers;
  same('records', counts.records, reference.records);
  for (const fate of /** @type {const} */ (['used', 'setAside', 'refused'])) {
    same(fate, counts[fate], reference[fate]);
  }
  const names = Object.keys(reference.groups).sort();
  same('stations', answers.discrepancy.groups.map(({ name }) => name).join(), names.join());
  for (const name of names) {
    const need = reference.groups[name];
    const rates = answers.discrepancy.groups.find((group) => group.name === name);
    const densities = answers.density.groups.find((group) => group.name === name);
    const samples = answers.samples.groups.find((group) => group.name === name);
    if (need === undefined) continue;
    for (const key of /** @type {const} */ (['refuellings', 'judged', 'outside'])) {
      same(`${name} ${key}`, rates?.[key], need[key]);
    }
    same(`${name} densities`, densities?.n, need.n);
    for (const key of /** @type {const} */ (['passed', 'failed']))
      same(`${name} ${key}`, samples?.[key], need[key]);
    quantileKeys.forEach((key, i) => {
      const have = Number(densities?.[key]);
      const wanted = need.quantiles[i] ?? NaN;
      if (!(Math.abs(have - wanted) <= densityAgreementKgM3))
        found.push(`${name} ${key}: ${have}, need ${wanted}`);
    });
  }
  return found;
}

/**
 * What cannot be right whatever the file says: records that are lost, groups that are not their total.
 * @param {import('./site.js').SiteAnswers} answers
 */
export function contradictions({ counts, discrepancy }) {
  /** @type {string[]} */
  const found = [];
  const fates = counts.header + counts.used + counts.setAside + counts.refused + counts.skipped;
  if (fates !== counts.records) found.push(`fates: ${fates} in all, need ${counts.records} records`);
  for (const key of /** @type {const} */ (['refuellings', 'judged', 'outside'])) {
    const sum = discrepancy.groups.reduce((total, group) => total + group[key], 0);
    if (sum !== discrepancy.all[key]) found.push(`${key}: ${sum} over groups, need ${discrepancy.all[key]}`);
  }
  return found;
}
