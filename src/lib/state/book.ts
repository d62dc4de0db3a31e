import { getContext, setContext } from 'svelte';
import type { Address } from './address.svelte.ts';
import type { Scope } from './scope.svelte.ts';
import type { Session } from './session.svelte.ts';

/** What every page of the book works with: made once in the root layout. */
export interface Book {
  readonly session: Session;
  readonly address: Address;
  readonly scope: Scope;
}

const key = Symbol('book');

export function provideBook(book: Book): void {
  setContext(key, book);
}

/** The book; called while a component starts. */
export function useBook(): Book {
  return getContext<Book>(key);
}
