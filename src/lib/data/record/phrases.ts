/** Header phrases written as one text, a semicolon or a line end between them. */
export function phrases(text: string): readonly string[] {
  return text
    .split(/[;\n]/)
    .map((phrase) => phrase.trim())
    .filter((phrase) => phrase !== '');
}
