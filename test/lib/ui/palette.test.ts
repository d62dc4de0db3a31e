import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const css = readFileSync(new URL('../../../src/lib/ui/tokens.css', import.meta.url), 'utf8');
const tokens = new Map(
  [...css.matchAll(/--([\w-]+): light-dark\((#[\da-f]{6}), (#[\da-f]{6})\)/g)].map(([, name, day, night]) => [
    name ?? '',
    [day ?? '', night ?? ''] as const
  ])
);

/** Relative luminance and contrast ratio as WCAG 2.2 defines them. */
function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5]
    .map((at) => parseInt(hex.slice(at, at + 2), 16) / 255)
    .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
  return 0.2126 * (r ?? 0) + 0.7152 * (g ?? 0) + 0.0722 * (b ?? 0);
}

function contrast(one: string, other: string, theme: 0 | 1): number {
  const lights = [one, other].map((name) => luminance(tokens.get(name)?.[theme] ?? 'none'));
  return (Math.max(...lights) + 0.05) / (Math.min(...lights) + 0.05);
}

describe.each([
  ['day', 0 as const],
  ['night', 1 as const]
])('the inks by %s', (_name, theme) => {
  it.each(['ink', 'ink-second', 'plus', 'minus', 'stamp'])(
    '%s is at least 4.5:1 on the page, for text (WCAG 1.4.3)',
    (name) => {
      expect(contrast(name, 'page', theme)).toBeGreaterThanOrEqual(4.5);
    }
  );

  it.each(['ink', 'ink-second'])('%s is at least 4.5:1 on the desk', (name) => {
    expect(contrast(name, 'desk', theme)).toBeGreaterThanOrEqual(4.5);
  });

  it.each(['rule-strong', 'stamp-mark', 'side-1', 'side-7', 'who-1', 'who-2', 'who-3', 'who-4', 'who-5'])(
    '%s is at least 3:1 on the page, for marks (WCAG 1.4.11)',
    (name) => {
      expect(contrast(name, 'page', theme)).toBeGreaterThanOrEqual(3);
    }
  );

  it('the five steps of coverage run one way', () => {
    const lights = [1, 2, 3, 4, 5].map((step) => luminance(tokens.get(`step-${step}`)?.[theme] ?? 'none'));
    const sorted = lights.toSorted((a, b) => (theme === 0 ? b - a : a - b));
    expect(lights).toEqual(sorted);
  });
});
