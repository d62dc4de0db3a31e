import type { LimitBase, LimitSet } from '#lib/data/settings/index.ts';

/** A revision as a form holds it: an empty number field is null. */
export interface LimitDraft {
  id: string;
  name: string;
  fromDay: string;
  base: LimitBase;
  percent: number | null;
  floorKg: number | null;
  floorGaugeSteps: number | null;
  orderedKg: number | null;
  certificateKgM3: number | null;
  imbalanceKg: number | null;
  reason: string;
  exceptions: LimitSet['exceptions'];
}

/** A draft that starts from the newest set. */
export function draftOf(newest: LimitSet | undefined): LimitDraft {
  return {
    id: newest?.id ?? 'own',
    name: newest?.name ?? '',
    fromDay: '',
    base: newest?.base ?? 'meteredMass',
    percent: newest?.width.percent ?? 3,
    floorKg: newest?.width.floorKg ?? null,
    floorGaugeSteps: newest?.width.floorGaugeSteps ?? 0,
    orderedKg: newest?.orderedKg ?? 100,
    certificateKgM3: newest?.certificateKgM3 ?? 3,
    imbalanceKg: newest?.imbalanceKg ?? null,
    reason: '',
    exceptions: newest?.exceptions ?? []
  };
}

/** The revision a draft makes, or what is wrong with it. It is confirmed by entering it: a person stands behind it. */
export function revisionOf(
  draft: LimitDraft,
  sets: readonly LimitSet[]
): { set: LimitSet; problem: null } | { set: null; problem: string } {
  const wrong = (problem: string) => ({ set: null, problem });
  if (draft.name.trim() === '') return wrong('The set needs a name.');
  if (draft.reason.trim() === '') return wrong('A change needs its reason.');
  const { percent, orderedKg, certificateKgM3 } = draft;
  if (percent === null || !(percent >= 0)) return wrong('The percentage must be 0 or more.');
  if (orderedKg === null || certificateKgM3 === null)
    return wrong('The limits for orders and certificates are needed.');
  const fromMs = draft.fromDay === '' ? null : Date.parse(draft.fromDay);
  const newest = sets.at(-1);
  if (fromMs !== null && newest?.fromMs != null && fromMs < newest.fromMs) {
    return wrong('It must not start before the revision it follows.');
  }
  const set: LimitSet = {
    id: draft.id,
    name: draft.name.trim(),
    revision: Math.max(0, ...sets.map((each) => each.revision)) + 1,
    fromMs,
    untilMs: null,
    reason: draft.reason.trim(),
    confirmed: true,
    base: draft.base,
    width: { percent, floorKg: draft.floorKg, floorGaugeSteps: draft.floorGaugeSteps ?? 0 },
    exceptions: draft.exceptions,
    orderedKg,
    certificateKgM3,
    imbalanceKg: draft.imbalanceKg
  };
  return { set, problem: null };
}
