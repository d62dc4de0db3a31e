/** Header spellings brought to one, so that a list of words need not name each. */
const oneSpelling = new Map<string, string>([
  ['temp', 'temperature'],
  ['temps', 'temperature'],
  ['tmp', 'temperature'],
  ['vol', 'volume'],
  ['volumes', 'volume'],
  ['qty', 'quantity'],
  ['qnty', 'quantity'],
  ['quant', 'quantity'],
  ['dens', 'density'],
  ['reg', 'registration'],
  ['regn', 'registration'],
  ['arr', 'arrival'],
  ['dep', 'departure'],
  ['no', 'number'],
  ['nr', 'number'],
  ['num', 'number'],
  ['nbr', 'number'],
  ['stn', 'station'],
  ['sta', 'station'],
  ['flt', 'flight'],
  ['obs', 'observed'],
  ['cert', 'certificate'],
  ['std', 'standard'],
  ['fueling', 'fuelling'],
  ['refueling', 'refuelling'],
  ['refuel', 'refuelling'],
  ['fueler', 'fueller'],
  ['refueler', 'refueller'],
  ['defueled', 'defuelled'],
  ['defueling', 'defuelling'],
  ['liter', 'litre'],
  ['liters', 'litres'],
  ['color', 'colour'],
  ['totalizer', 'totaliser'],
  ['tks', 'tank'],
  ['tk', 'tank'],
  ['datetime', 'date time'],
  ['dt', 'date'],
  ['tkt', 'ticket'],
  ['tckt', 'ticket'],
  ['acft', 'aircraft'],
  ['mtr', 'meter'],
  ['suppl', 'supplier'],
  ['supp', 'supplier'],
  ['rmk', 'remarks'],
  ['rmks', 'remarks'],
  ['amt', 'amount'],
  ['veh', 'vehicle'],
  ['cond', 'conductivity'],
  ['appear', 'appearance'],
  ['timestamp', 'date time']
]);

/** Joins of single letters that are one word in the trade: A/C, S/N. */
function joinShortPairs(text: string): string {
  return text.replace(/\b(\p{L})[/.](\p{L})\b\.?/gu, '$1$2');
}

/**
 * A header as words: compatible forms and accents undone, camel case and underscores taken apart, digits apart from
 * letters, the trade's abbreviations written out. `ArrFuel`, `arr_fuel` and `Arr. fuel` become `arrival fuel`.
 * Headers longer than 200 characters are cut: none is recognised by what stands there.
 */
export function headerWordsOf(header: string): string[] {
  const plain = header
    .slice(0, 200)
    .replace(/\bUoM\b/g, 'uom')
    .replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
    .replace(/[°º˚]/g, ' ')
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/ß/g, 'ss')
    .replace(/#/g, ' number ')
    .replace(/@/g, ' at ');
  return joinShortPairs(plain)
    .replace(/['’]/g, ' ')
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .replace(/(\p{L})(\p{N})/gu, '$1 $2')
    .replace(/(\p{N})(\p{L})/gu, '$1 $2')
    .split(' ')
    .flatMap((word) => (oneSpelling.get(word) ?? word).split(' '))
    .filter((word) => word !== '');
}

/** Header without what stands in its last parentheses or brackets, and that content; content is null without them. */
export function bracketOf(header: string): { outside: string; inside: string | null } {
  const text = header.slice(0, 200).trim();
  const close = Math.max(text.lastIndexOf(')'), text.lastIndexOf(']'));
  const open = Math.max(text.lastIndexOf('(', close), text.lastIndexOf('[', close));
  if (open < 0 || close < open) return { outside: text, inside: null };
  return {
    outside: `${text.slice(0, open)} ${text.slice(close + 1)}`.trim(),
    inside: text.slice(open + 1, close).trim()
  };
}
