import { getContext, setContext } from 'svelte';

const KEY = Symbol('single-letter keys');

/** Lets a layout turn the single-letter keys of every figure off (WCAG 2.1.4). Called while a component starts. */
export function setShortcuts(enabled: () => boolean): void {
  setContext(KEY, enabled);
}

/** Whether single-letter keys act, as a function to be read when a key is pressed; true where nobody said. */
export function getShortcuts(): () => boolean {
  return getContext<(() => boolean) | undefined>(KEY) ?? (() => true);
}

/** True while a key press belongs to a control that takes letters. */
export function isTyping(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  return target.isContentEditable || ['INPUT', 'SELECT', 'TEXTAREA'].includes(target.tagName);
}
