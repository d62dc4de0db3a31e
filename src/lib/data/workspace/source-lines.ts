import type { Dialect } from '#lib/data/intake/index.ts';

/** Most text handed out for one record: a swallowed block would flood the page. */
const mostCharacters = 20_000;

/**
 * The text of physical lines of a file, from line `first` (from 1). The file is read again from its start: the raw
 * line is asked for seldom and costs no memory in between.
 */
export async function readLines(
  source: Blob,
  encoding: Dialect['encoding'],
  first: number,
  lines: number
): Promise<string> {
  const reader = source.stream().pipeThrough(new TextDecoderStream(encoding)).getReader();
  let line = 1;
  let found = '';
  let endedInReturn = false;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    let from = 0;
    for (let at = 0; at < value.length; at++) {
      const mark = value.charCodeAt(at);
      const isFeedOfPair = mark === 10 && endedInReturn;
      endedInReturn = mark === 13;
      if (isFeedOfPair) {
        if (line <= first) from = at + 1;
        continue;
      }
      if (mark !== 10 && mark !== 13) continue;
      line++;
      if (line <= first) from = at + 1;
      else if (line >= first + lines || found.length > mostCharacters) {
        await reader.cancel();
        return trimmed(found + value.slice(from, at));
      }
    }
    if (line >= first) found += value.slice(from);
  }
  return trimmed(found);
}

function trimmed(text: string): string {
  const body = text.startsWith('\n') ? text.slice(1) : text;
  return body.slice(0, mostCharacters);
}
