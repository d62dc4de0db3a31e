/** Rendered markup as text: hydration comments dropped, numbers rounded to three decimals. */
export function tidy(rendered: { body: string }): string {
  return rendered.body
    .replaceAll(/<!--.*?-->/g, '')
    .replaceAll(/-?\d+\.\d{4,}/g, (text) => String(Math.round(Number(text) * 1000) / 1000));
}

/** The keys that a drawing carries, in order, each once. */
export function drawnKeys(svg: string): string[] {
  return [...new Set([...svg.matchAll(/data-key="([^"]*)"/g)].map((match) => match[1] ?? ''))];
}

/** Where the mark of each datum stands: the translation of the group that carries its key. */
export function markPlaces(svg: string): Map<string, { x: number; y: number }> {
  const groups = svg.matchAll(
    /<g class="mark[^"]*" transform="translate\(([-\d.]+) ([-\d.]+)\)" data-key="([^"]*)"/g
  );
  return new Map([...groups].map(([, x, y, key]) => [key ?? '', { x: Number(x), y: Number(y) }]));
}

/** The text inside the group that carries a key. */
export function groupOf(svg: string, key: string): string {
  const start = svg.indexOf(`data-key="${key}"`);
  return start < 0 ? '' : svg.slice(start, svg.indexOf('</g>', start));
}

/** The numbers of one attribute of all elements in a text. */
export function attribute(svg: string, name: string): number[] {
  return [...svg.matchAll(new RegExp(` ${name}="([-\\d.]+)"`, 'g'))].map((match) => Number(match[1]));
}

/**
 * How far places are from lying on one straight line over their values, px: 0 for a faithful drawing on a linear scale.
 * The line goes through the least and the greatest value.
 */
export function farthestFromLine(pairs: readonly { value: number; place: number }[]): number {
  const order = pairs.toSorted((a, b) => a.value - b.value);
  const first = order[0];
  const last = order.at(-1);
  if (first === undefined || last === undefined || first.value === last.value) {
    throw new Error(`pairs: ${pairs.length} values, need two that differ`);
  }
  const slope = (last.place - first.place) / (last.value - first.value);
  if (slope === 0) throw new Error('pairs: all at one place, need a scale');
  return Math.max(
    ...order.map(({ value, place }) => Math.abs(place - (first.place + slope * (value - first.value))))
  );
}
