const longest = 200;

/**
 * The name of a file as it may be shown: folders kept, with `/` between them, but no way up or to a root, no control
 * characters, and none that turn the direction of writing or take no room, so that no name looks like another one.
 */
export function displayName(path: string): string {
  const visible = Array.from(path.toWellFormed().replaceAll('\\', '/')).filter((char) => !isHidden(char));
  const parts = visible
    .join('')
    .split('/')
    .map((part) => part.trim())
    .filter((part) => part !== '' && part !== '.' && part !== '..');
  const name = parts.join('/');
  return name === '' ? 'unnamed' : shortened(name);
}

function shortened(name: string): string {
  const chars = Array.from(name);
  // The end is kept, for it tells the kind of file.
  return chars.length <= longest ? name : `…${chars.slice(1 - longest).join('')}`;
}

function isHidden(char: string): boolean {
  const code = char.codePointAt(0) ?? 0;
  return (
    code < 0x20 ||
    (code >= 0x7f && code < 0xa0) ||
    code === 0xad ||
    code === 0x061c ||
    code === 0x180e ||
    (code >= 0x200b && code <= 0x200f) ||
    (code >= 0x2028 && code <= 0x202e) ||
    (code >= 0x2060 && code <= 0x206f) ||
    code === 0xfeff ||
    (code >= 0xfff9 && code <= 0xfffb) ||
    (code >= 0xe0000 && code <= 0xe007f)
  );
}
