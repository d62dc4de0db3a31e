import type { LimitBase, LimitException, LimitSet } from '#lib/data/settings/index.ts';

/** An exception as a form holds it: blank type or station stands for any. */
export interface ExceptionDraft {
  type: string;
  station: string;
  percent: number | null;
  floorKg: number | null;
  floorGaugeSteps: number | null;
}

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
  exceptions: ExceptionDraft[];
}

function exceptionDraft({ type, station, width }: LimitException): ExceptionDraft {
  return { type: type ?? '', station: station ?? '', ...width };
}

const orAny = (text: string): string | null => (text.trim() === '' ? null : text.trim());

/** The exceptions a draft makes, those that are not whole yet left out. */
export function exceptionsOf(drafts: readonly ExceptionDraft[]): LimitException[] {
  return drafts.flatMap(({ type, station, percent, floorKg, floorGaugeSteps }) => {
    const exception = { type: orAny(type), station: orAny(station) };
    const isWhole = percent !== null && percent >= 0 && (exception.type ?? exception.station) !== null;
    return isWhole
      ? [{ ...exception, width: { percent, floorKg, floorGaugeSteps: floorGaugeSteps ?? 0 } }]
      : [];
  });
}

function exceptionProblem(drafts: readonly ExceptionDraft[]): string | null {
  const whole = exceptionsOf(drafts);
  if (whole.length < drafts.length)
    return 'An exception needs a type or a station, and a percentage of 0 or more.';
  const keys = new Set(whole.map(({ type, station }) => JSON.stringify([type, station])));
  return keys.size < whole.length ? 'There are two exceptions for the same type and station.' : null;
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
    exceptions: (newest?.exceptions ?? []).map(exceptionDraft)
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
  const exceptionWrong = exceptionProblem(draft.exceptions);
  if (exceptionWrong !== null) return wrong(exceptionWrong);
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
    exceptions: exceptionsOf(draft.exceptions),
    orderedKg,
    certificateKgM3,
    imbalanceKg: draft.imbalanceKg
  };
  return { set, problem: null };
}
