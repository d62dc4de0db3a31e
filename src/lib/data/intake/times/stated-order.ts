import type { DateOrder } from './parts.ts';

const letterOf: Readonly<Record<string, 'd' | 'm' | 'y'>> = {
  d: 'd',
  j: 'd',
  t: 'd',
  m: 'm',
  y: 'y',
  a: 'y'
};

/**
 * The order that a pattern such as `dd/mm/yyyy hh:mm` or `JJ.MM.AA` states, null where the text holds no pattern of
 * a day, a month and a year.
 */
export function statedOrder(text: string): DateOrder | null {
  const runs: string[] = [];
  for (const match of text
    .slice(0, 80)
    .toLowerCase()
    .matchAll(/([a-z])\1{1,3}(?![a-z])/g)) {
    const letter = letterOf[match[1] ?? ''];
    // In hh:mm the second run is of minutes: a date comes first or the clock does not matter.
    if (letter !== undefined && !runs.includes(letter) && text.charAt(match.index - 1) !== ':')
      runs.push(letter);
  }
  const order = runs.join('');
  return order === 'dmy' || order === 'mdy' || order === 'ymd' ? order : null;
}

/** True where a text is nothing but a pattern of a date or a clock, as a row of units may hold. */
export function isTimePattern(text: string): boolean {
  return (
    /^[dmyhsjat\s:./-]{4,30}$/i.test(text) && (statedOrder(text) !== null || /^h{1,2}:?m{2}/i.test(text))
  );
}
