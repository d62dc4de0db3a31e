import { checkStates, type CheckState } from '#lib/data/record/index.ts';
import { foldWord } from './evidence/word-evidence.ts';

/**
 * Words whose meaning nobody doubts, whichever check they stand in. Others ("positive", "C&B", "yes") mean different
 * things in different columns and are asked about.
 */
const plain: readonly (readonly [CheckState, string])[] = [
  ['passed', 'passed;pass;passed.;satisfactory;conforme;bestanden;aprobado;aprovado;superato'],
  ['failed', 'failed;fail;failure;unsatisfactory;non conforme;nicht bestanden;fallado;reprovado;fallito'],
  [
    'notDone',
    'not done;not tested;not performed;not taken;non fait;nicht durchgeführt;no realizado;não realizado'
  ],
  ['notRequired', 'not required;not applicable;non requis;nicht erforderlich;no requerido;não exigido'],
  ['notRecorded', 'not recorded']
];

const stateByWord = new Map<string, CheckState>();
for (const [state, words] of plain)
  for (const word of words.split(';')) stateByWord.set(foldWord(word), state);
for (const state of checkStates) stateByWord.set(foldWord(state), state);

/** The state of a check that a word plainly names, null where it has to be asked. */
export function plainCheckState(folded: string): CheckState | null {
  return stateByWord.get(folded) ?? null;
}

const plainChoices = new Map<string, string>(
  (
    [
      ['hydrometer', 'hydrometer;glass hydrometer;glass;areometer;aräometer;densimetro;aréomètre'],
      ['densitometer', 'densitometer;digital densitometer;digital;density meter;u-tube'],
      ['inLine', 'inline;in-line;in line;line densitometer'],
      ['totalOnBoard', 'totalonboard;total on board;total'],
      ['amountToAdd', 'amounttoadd;amount to add;to add;uplift']
    ] as const
  ).flatMap(([choice, words]) => words.split(';').map((word): [string, string] => [foldWord(word), choice]))
);

/** The choice that a word plainly names, null where it has to be asked or is none of the field's choices. */
export function plainChoice(folded: string, choices: readonly string[]): string | null {
  const exact = choices.find((choice) => foldWord(choice) === folded);
  if (exact !== undefined) return exact;
  const choice = plainChoices.get(folded);
  return choice !== undefined && choices.includes(choice) ? choice : null;
}
