/** How the person reads the book: kept in this browser, apart from all data. */
export type Theme = 'system' | 'day' | 'night';

const themeKey = 'gaugebook-theme';
const lettersKey = 'gaugebook-letters';

function kept(key: string): string | null {
  try {
    return localStorage.getItem(key);
  } catch {
    // A browser that refuses storage still shows the page.
    return null;
  }
}

function keep(key: string, value: string): void {
  try {
    localStorage.setItem(key, value);
  } catch {
    // Then the choice holds for this window only.
  }
}

function themeFrom(text: string | null): Theme {
  return text === 'day' || text === 'night' ? text : 'system';
}

/** Theme and single-letter keys. Made once in the root layout. */
export class Reading {
  #theme = $state<Theme>(themeFrom(kept(themeKey)));
  #letters = $state(kept(lettersKey) !== 'off');

  get theme(): Theme {
    return this.#theme;
  }

  set theme(theme: Theme) {
    this.#theme = theme;
    keep(themeKey, theme);
    this.apply();
  }

  /** Whether single letters act in charts (WCAG 2.1.4: they can be turned off). */
  get letters(): boolean {
    return this.#letters;
  }

  set letters(on: boolean) {
    this.#letters = on;
    keep(lettersKey, on ? 'on' : 'off');
  }

  /** Hands the theme to the page. */
  apply(): void {
    if (this.#theme === 'system') delete document.documentElement.dataset['theme'];
    else document.documentElement.dataset['theme'] = this.#theme;
  }
}
