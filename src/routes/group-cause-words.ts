import type { WholeGroup } from '#lib/data/questions/index.ts';
import { causeWords, groupCauseWords, sideWords } from '#lib/data/words/index.ts';
import { formatCount, formatInterval, formatNumber, formatPercentInterval } from '#lib/ui/format.ts';

/** What of a group cause is said in words. */
export type SaidOfGroup = Pick<WholeGroup, 'field' | 'name' | 'n' | 'cause' | 'size' | 'error' | 'seen'>;

const z95 = 1.959964;
const suppositions: Readonly<Record<string, string>> = {
  ...causeWords,
  ...Object.fromEntries(Object.entries(groupCauseWords).map(([code, words]) => [code, `would fit ${words}`]))
};

function interval({ size, error }: SaidOfGroup, decimals: number, unit: string): string {
  return `interval ${formatInterval(size - z95 * error, size + z95 * error, { decimals, signed: true, unit })}`;
}

function shareInterval({ size, error }: SaidOfGroup): string {
  const low = Math.max(0, size - z95 * error);
  return `interval ${formatPercentInterval(low, Math.min(1, size + z95 * error), { decimals: 0 })}`;
}

const percent = (share: number) => `${formatNumber(100 * Math.min(1, share))} %`;

/** What speaks for it, in plain words, with its interval. */
function sign(said: SaidOfGroup): string {
  const { cause, size, seen } = said;
  switch (cause) {
    case 'density15AsObserved':
      return `the warmer the fuel, the more the meter says, as about ${percent(size)} of the refuellings would make it (${shareInterval(said)})`;
    case 'netInGross':
      return `the warmer the fuel, the more the gauge says, as about ${percent(size)} of the refuellings would make it (${shareInterval(said)})`;
    case 'groundBurnOmitted':
      return `whatever the uplift the gauges show ${formatNumber(-size)} kg too little (${interval(said, 0, 'kg')}), and the burn is hardly ever written down there`;
    case 'defaultDensity':
      return `${percent(size)} of the densities are the default to the last digit`;
    case 'fahrenheitAsCelsius':
      return `${percent(size)} of the temperatures are out of the range of weather, and in it as Fahrenheit`;
    case 'wrongCertificate':
      return `density at 15 °C less the certificate’s moved by ${formatNumber(size, { decimals: 1, signed: true })} kg/m³ and stayed (${interval(said, 1, 'kg/m³')}); until shown otherwise it counts as possible contamination`;
    default: {
      const [before, where] = said.field === 'tail' ? ['at', 'stations'] : ['with', 'aircraft'];
      const same =
        seen === null ? '' : ` ${before} ${formatCount(seen.same)} of ${formatCount(seen.places)} ${where}`;
      return `${sideWords(size)}${same}, ${formatNumber(size, { decimals: 2, signed: true })} % (${interval(said, 2, '%')})`;
    }
  }
}

/** "would fit if the observed density were the one at 15 °C: the warmer the fuel, ... 1 580 refuellings". */
export function groupCauseSentence(said: SaidOfGroup): string {
  return `${suppositions[said.cause] ?? said.cause}: ${sign(said)}. ${formatCount(said.n)} records.`;
}
