/** The width that words take at 13 px, a little generous, so that neighbours never touch. */
export function textPx(text: string): number {
  return text.length * 7.2;
}

export interface Placed {
  /** Left end of the words, px. */
  x: number;
  /** 0 is the row nearest to the drawing. */
  row: number;
}

/**
 * Places words that belong to places along a line, so that none leaves [0, width] and none overlaps another: each stands
 * to the right of its place where it fits, else it is pushed left. Of two that collide the left one goes a row further
 * out, so that the line down from it does not cross the words of the right one.
 *
 * @param items in order of `x`
 */
export function placeLabels(
  items: readonly { x: number; text: string }[],
  width: number,
  gapPx = 4
): Placed[] {
  const starts: number[] = [];
  return items
    .toReversed()
    .map(({ x, text }) => {
      const length = textPx(text);
      const start = Math.max(0, Math.min(x + gapPx, width - length));
      let row = starts.findIndex((taken) => start + length + 2 * gapPx <= taken);
      if (row < 0) row = starts.length;
      starts[row] = start;
      return { x: start, row };
    })
    .toReversed();
}

/**
 * Every how-manieth label to keep so that those left stand at least `gapPx` apart: 1, 2, 5, 10, 20, 50 ...
 *
 * @param stepPx distance between neighbours
 */
export function keepEvery(stepPx: number, gapPx: number): number {
  if (!(stepPx > 0)) return 1;
  for (let ten = 1; ten < 1e9; ten *= 10) {
    for (const step of [1, 2, 5]) if (step * ten * stepPx >= gapPx) return step * ten;
  }
  return 1e9;
}

/** Height of a row of a key, px. */
export const KEY_ROW_PX = 22;

export interface KeyPlace {
  text: string;
  /** Left end of the swatch; the words start 20 px further. */
  x: number;
  row: number;
}

/**
 * Places the words of a key one after the other, each behind a swatch, broken into rows that fit.
 *
 * @param startPx room for the key's own name in its first row
 */
export function placeKey(texts: readonly string[], width: number, startPx = 0): KeyPlace[] {
  let x = startPx;
  let row = 0;
  return texts.map((text) => {
    const length = 20 + textPx(text);
    if (x > 0 && x + length > width) {
      x = 0;
      row++;
    }
    const place = { text, x, row };
    x += length + 16;
    return place;
  });
}

/** The height that a key takes, px. */
export function keyHeight(places: readonly KeyPlace[]): number {
  return places.length === 0 ? 0 : ((places.at(-1)?.row ?? 0) + 1) * KEY_ROW_PX;
}

export interface NamedPlace {
  key: string;
  text: string;
  x: number;
  y: number;
}

/**
 * Names beside points: each to the right of its point, else to the left, else none, so that no name covers another or
 * leaves the range. Earlier items go first.
 */
export function freePlaces(
  items: readonly NamedPlace[],
  range: readonly [number, number]
): (NamedPlace & { left: boolean })[] {
  const taken: { from: number; to: number; y: number }[] = [];
  return items.flatMap((item) => {
    const length = textPx(item.text) + 9;
    for (const left of [false, true]) {
      const from = left ? item.x - length : item.x;
      const to = from + length;
      const free = taken.every((box) => to < box.from || from > box.to || Math.abs(box.y - item.y) > 15);
      if (!free || from < range[0] || to > range[1]) continue;
      taken.push({ from, to, y: item.y });
      return [{ ...item, left }];
    }
    return [];
  });
}

/**
 * Pushes places down, in order, until neighbours stand at least `gapPx` apart; the whole is centred on where it was.
 *
 * @returns places in the order given
 */
export function spreadApart(places: readonly number[], gapPx: number): number[] {
  const order = places.map((place, index) => ({ place, index })).sort((a, b) => a.place - b.place);
  const spread: number[] = [];
  let last = -Infinity;
  let pushed = 0;
  for (const { place, index } of order) {
    last = Math.max(place, last + gapPx);
    pushed += last - place;
    spread[index] = last;
  }
  const back = places.length === 0 ? 0 : pushed / places.length;
  return spread.map((place) => place - back);
}
