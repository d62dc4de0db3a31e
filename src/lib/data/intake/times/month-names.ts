const months: readonly string[] = [
  'jan january janvier janv januar enero ene janeiro gennaio gen jaen jaenner janner',
  'feb february fevrier fevr fev februar febrero fevereiro febbraio',
  'mar march mars marz maerz mrz marzo marco',
  'apr april avril avr abril abr aprile',
  'may mai mayo maio mag maggio',
  'jun june juin juni junio junho giugno giu',
  'jul july juillet juil juli julio julho luglio lug',
  'aug august aout agosto ago',
  'sep sept september septembre septiembre setembro set settembre',
  'oct october octobre oktober okt octubre outubro out ottobre ott',
  'nov november novembre noviembre novembro',
  'dec december decembre dezember dez diciembre dic dezembro dicembre'
];

const weekdays =
  'mon tue tues wed thu thur thurs fri sat sun monday tuesday wednesday thursday friday saturday sunday ' +
  'lun mer jeu ven sam dim lundi mardi mercredi jeudi vendredi samedi dimanche ' +
  'mo di mi do fr sa so montag dienstag mittwoch donnerstag freitag samstag sonnabend sonntag ' +
  'mie jue vie sab dom lunes martes miercoles jueves viernes sabado domingo ' +
  'seg ter qua qui sex segunda terca quarta quinta sexta gio lunedi martedi mercoledi giovedi venerdi domenica';

const monthByName = new Map<string, number>(
  months.flatMap((names, index) => names.split(' ').map((name): [string, number] => [name, index + 1]))
);
const weekdayNames = new Set(weekdays.split(' '));

/** Small letters without accents, as the lists above are written. */
export function plainWord(text: string): string {
  return text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();
}

/** Month of a name or its abbreviation in the six header languages, 1 to 12; 0 where it is none. */
export function monthNamed(word: string): number {
  return monthByName.get(plainWord(word)) ?? 0;
}

/** True for the name of a day of the week; such a word before a date says nothing more. */
export function isWeekday(word: string): boolean {
  return weekdayNames.has(plainWord(word));
}
