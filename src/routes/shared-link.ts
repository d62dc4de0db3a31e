import type { WorkspaceState } from '#lib/data/workspace/index.ts';

/** What a shared link says of the data and limits it was made with. */
export interface Sealed {
  readonly data: string;
  readonly limits: string;
}

/** The short fingerprint of the data and the revisions of limits in hand. */
export function sealOf(workspace: WorkspaceState): Sealed {
  return {
    data: workspace.dataFingerprint?.slice(0, 8) ?? '',
    limits: workspace.settings.limitSets.map(({ id, revision }) => `${id}.${revision}`).join('+')
  };
}

/** How what is here differs from what a link was made with, in words; null where it does not. */
export function differenceOf(link: Sealed, here: Sealed): string | null {
  const parts: string[] = [];
  if (link.data !== '' && here.data !== '' && link.data !== here.data) {
    parts.push(`This link was made with other data: fingerprint ${link.data} there, ${here.data} here.`);
  }
  if (link.limits !== '' && link.limits !== here.limits) {
    parts.push(`It was made with other limits: ${link.limits} there, ${here.limits} here.`);
  }
  return parts.length === 0 ? null : parts.join(' ');
}
