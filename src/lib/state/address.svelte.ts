import { goto } from '$app/navigation';
import { resolve } from '$app/paths';
import { page } from '$app/state';
import type { RecordFilter } from '#lib/data/ledger/index.ts';
import { readFilter } from './filter.ts';
import { hashOf, optionsOf, parametersOf } from './hash.ts';

/** Paths of the site's pages. */
export type PagePath =
  | '/'
  | '/files/'
  | '/stations/'
  | '/aircraft/'
  | '/vehicles/'
  | '/aircraft-vehicle/'
  | '/trend/'
  | '/density/'
  | '/samples/'
  | '/suppliers/'
  | '/records/'
  | '/uplift/'
  | '/limits/'
  | '/demo/'
  | '/method/';

/** A page's path under whatever folder the site stands in. */
export function pathOf(path: PagePath): string {
  return `${resolve('/')}${path.slice(1)}`;
}

/**
 * The address line as the only home of what a page shows: filter and page options live after the `#`, which no
 * server ever sees. Nothing of it stands after a `?`.
 */
export class Address {
  readonly #parameters = $derived(parametersOf(page.url.hash));
  readonly #read = $derived(readFilter(this.#parameters));
  readonly filter = $derived(this.#read.filter);
  /** Parts of the address that were not understood and are left out. */
  readonly unknown = $derived(this.#read.unknown);

  /** A page option by name, '' where it is not set. */
  option(name: string): string {
    return this.#parameters.get(name) ?? '';
  }

  /** The link to a page with a filter and options. */
  link(
    path: PagePath,
    filter: RecordFilter = this.filter,
    options: Readonly<Record<string, string>> = {}
  ): string {
    return `${pathOf(path)}${hashOf(filter, options)}`;
  }

  /** A link to the page in hand that says which data and limits it was made with. */
  linkToShare(data: string, limits: string): string {
    const options = { ...optionsOf(this.#parameters, this.filter), data, limits };
    return `${page.url.origin}${page.url.pathname}${hashOf(this.filter, options)}`;
  }

  /** Changes the filter on the page in hand, its options kept; a step that Back undoes. */
  async choose(filter: RecordFilter): Promise<void> {
    performance.mark('filter:start');
    await this.#go(filter, optionsOf(this.#parameters, this.filter), false);
  }

  /** Sets a page option; `replace` for what Back need not step through. */
  async setOption(name: string, value: string, replace = false): Promise<void> {
    await this.setOptions({ [name]: value }, replace);
  }

  /** Sets several page options in one step; '' takes one away. */
  async setOptions(options: Readonly<Record<string, string>>, replace = false): Promise<void> {
    await this.#go(this.filter, { ...optionsOf(this.#parameters, this.filter), ...options }, replace);
  }

  async #go(
    filter: RecordFilter,
    options: Readonly<Record<string, string>>,
    replace: boolean
  ): Promise<void> {
    const target = `${page.url.pathname}${hashOf(filter, options)}`;
    await goto(target, { replaceState: replace, keepFocus: true, noScroll: true });
  }
}
