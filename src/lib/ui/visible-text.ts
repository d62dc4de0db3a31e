/** Joiners that Persian, Indic scripts and composed signs are written with: they belong to the text. */
const joiners = new Set(['\u200c', '\u200d']);

function symbolOf(char: string): string {
  const code = char.codePointAt(0) ?? 0;
  if (joiners.has(char)) return char;
  if (code < 0x20) return String.fromCharCode(0x2400 + code);
  return code === 0x7f ? '\u2421' : `[U+${code.toString(16).toUpperCase().padStart(4, '0')}]`;
}

/**
 * A text as it may be shown: control characters as their pictures (Unicode, Control Pictures), and what takes no room
 * or turns the direction of writing by its code, so that no name can be made to look like another.
 *
 * Example: `visibleText('Q7-\u202eBEK')` is 'Q7-[U+202E]BEK'.
 */
export function visibleText(text: string): string {
  return text.replace(/[\p{Cc}\p{Cf}\u2028\u2029]/gu, symbolOf);
}
