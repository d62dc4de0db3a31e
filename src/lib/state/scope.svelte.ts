import type { Address } from './address.svelte.ts';
import { Answer } from './answer.svelte.ts';
import { activeParts, withoutPart } from './filter.ts';
import type { Session } from './session.svelte.ts';

/** What the filter in the address lets through: asked once for all pages. */
export type Scope = Answer<'scope'>;

export function createScope(session: Session, address: Address): Scope {
  return new Answer(session, 'scope', 'scope', () => ({
    filter: address.filter,
    without: activeParts(address.filter).map((part) => withoutPart(address.filter, part))
  }));
}
