/**
 * The limits the demo's stories are sized for, in the shape of a set of limits: 3 % of metered mass, no floor. No
 * authority's number is meant by them.
 */
export const demoLimitSet = {
  id: 'demo',
  name: 'Demo: 3 % of metered mass, no floor',
  revision: 1,
  fromMs: null,
  untilMs: null,
  reason: 'The stories of the demo are sized for it',
  confirmed: false,
  base: 'meteredMass',
  width: { percent: 3, floorKg: 0, floorGaugeSteps: 0 },
  exceptions: [],
  orderedKg: 100,
  certificateKgM3: 3,
  imbalanceKg: null
} as const;
