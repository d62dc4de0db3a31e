import { describe, expect, it } from 'vitest';
import { formOf } from '#lib/core/density/editions.ts';
import { editions } from '#lib/core/density/index.ts';
import { baseDensity, baseDensityByBisection } from '#lib/core/density/solve.ts';

describe('the fast solver equals bisection', () => {
  it.each(editions)('over the whole range of densities and temperatures in edition %s', (edition) => {
    const form = formOf(edition);
    let worst = 0;
    const { minimumTemperatureC, maximumTemperatureC } = form;
    for (let temperatureC = minimumTemperatureC; temperatureC <= maximumTemperatureC; temperatureC += 2.6) {
      const difference = form.difference(temperatureC);
      for (let observed = 655; observed <= 1070; observed += 1.37) {
        const fast = baseDensity(form, observed, difference);
        worst = Math.max(worst, Math.abs(fast - baseDensityByBisection(form, observed, difference)));
      }
    }
    expect(worst).toBeLessThan(3e-9);
  });

  it.each(editions)(
    'where one band meets the next in edition %s, where a fixed point would swing',
    (edition) => {
      const form = formOf(edition);
      let worst = 0;
      const { minimumTemperatureC, maximumTemperatureC } = form;
      for (const temperatureC of [minimumTemperatureC, -12.5, 0, 10, 20, 35, 47, maximumTemperatureC]) {
        const difference = form.difference(temperatureC);
        for (const edge of form.bandEdgesKgM3) {
          const observedAtEdge = edge * Math.exp(-form.expansion(edge) * difference);
          for (let offset = -0.6; offset <= 0.6; offset += 0.003) {
            const observed = observedAtEdge + offset;
            const fast = baseDensity(form, observed, difference);
            worst = Math.max(worst, Math.abs(fast - baseDensityByBisection(form, observed, difference)));
          }
        }
      }
      expect(worst).toBeLessThan(3e-9);
    }
  );
});
