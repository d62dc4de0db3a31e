import type { Dialect, Tokeniser } from '../tokeniser.ts';
import { ByteTokeniser } from './byte-reader.ts';
import { PapaTokeniser } from './papa.ts';

export { ByteTokeniser } from './byte-reader.ts';
export { PapaTokeniser } from './papa.ts';
export { scanNumber } from './scan-number.ts';

/** The reader for a file of this dialect; throws on a delimiter that no reader can tell from a cell. */
export function tokeniserFor(dialect: Dialect): Tokeniser {
  const { delimiter } = dialect;
  if (delimiter.length !== 1 || delimiter > '\x7f' || '"\r\n'.includes(delimiter)) {
    throw new RangeError(
      `delimiter: ${JSON.stringify(delimiter)}, need one ASCII character, no quote or line end`
    );
  }
  const isWide = dialect.encoding === 'utf-16le' || dialect.encoding === 'utf-16be';
  return isWide ? new PapaTokeniser() : new ByteTokeniser();
}
