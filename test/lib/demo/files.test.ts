import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { demoMonths } from '#lib/demo/calendar.ts';
import {
  benchmarkFile,
  type DemoFile,
  demoFileAnswers,
  demoFiles,
  demoLayouts,
  demoStories,
  demoTruth,
  truthRecordsCsv,
  truthStoriesCsv
} from '#lib/demo/index.ts';
import { isFieldName } from '#lib/data/record/index.ts';
import { isUnitCode } from '#lib/core/units/index.ts';

const textOf = (file: Pick<DemoFile, 'chunks'> | undefined): string => [...(file?.chunks() ?? [])].join('');
const prefixOf = (file: DemoFile | undefined): string => {
  for (const chunk of file?.chunks() ?? []) return chunk;
  return '';
};
const hashOf = (text: string): string => createHash('sha256').update(text).digest('hex');

const files = demoFiles();
const texts = new Map(files.map((file) => [file.name, textOf(file)]));
const truth = demoTruth();
const small = { uplifts: 3000 };
const digitsOf = (text: string): string[] => text.split('');

describe('the files of the demo', () => {
  it('are nineteen from three senders, one month of them twice under another name', () => {
    expect(files.map((file) => file.layout).join('')).toBe('AAAAAAABBBBBCCCCCCA');
    const twice = files.filter(
      (file) => hashOf(texts.get(file.name) ?? '') === hashOf(texts.get(files[18]?.name ?? '') ?? '')
    );
    expect(twice.map((file) => file.name)).toEqual([files[4]?.name, files[18]?.name]);
  });

  it('hold about 60,000 uplifts, of which about 1,400 records and lines are awkward', () => {
    expect(Math.abs(truth.uplifts - 60_000)).toBeLessThan(600);
    const awkward = truth.records.filter((record) => ![4, 5, 6].includes(record.story));
    expect(Math.abs(awkward.length - 1400)).toBeLessThan(150);
  });

  it('have the same bytes for the same seed, and other bytes for another', () => {
    const first = prefixOf(demoFiles({ ...small, seed: 11 })[0]);
    expect(hashOf(prefixOf(demoFiles({ ...small, seed: 11 })[0]))).toBe(hashOf(first));
    expect(prefixOf(demoFiles({ ...small, seed: 12 })[0])).not.toBe(first);
  });

  it('have the bytes they had when they were last looked at', () => {
    expect(hashOf(prefixOf(files[0]).slice(0, 20_000))).toBe(
      'dd805af2e49e5f502f5d7b60020d2ed7eca9311ff52be38eded2ec4cfd375611'
    );
  });

  it('can be read in any order and again, each from its start', () => {
    const again = demoFiles(small);
    const inOrder = demoFiles(small).map(textOf);
    expect([13, 2, 13, 18, 0].map((index) => textOf(again[index]))).toEqual(
      [13, 2, 13, 18, 0].map((index) => inOrder[index])
    );
  });

  it('come in pieces small enough to stream', () => {
    let pieces = 0;
    for (const piece of files[3]?.chunks() ?? []) {
      pieces++;
      expect(piece.length).toBeLessThan(300_000);
    }
    expect(pieces).toBeGreaterThan(3);
  });

  it('head their columns alike for each sender, as the layouts say', () => {
    const delimiters = { A: ',', B: ';', C: '\t' };
    for (const file of files) {
      const lines = (texts.get(file.name) ?? '').replace('\uFEFF', '').split(/\r?\n/);
      const words = demoLayouts.find((layout) => layout.layout === file.layout)?.headerWords ?? [];
      const header = lines[file.layout === 'C' ? 4 : 0] ?? '';
      const cells = words.map((word) => (word.includes(delimiters[file.layout]) ? `"${word}"` : word));
      expect(header).toBe(cells.join(delimiters[file.layout]));
      expect(new Set(words).size).toBe(words.length);
    }
  });

  it('leave a person nothing to answer that is no field or unit of the record', () => {
    for (const { headerWords, answers } of demoLayouts) {
      for (const { column, question, answer } of answers) {
        expect(column === '' || headerWords.includes(column)).toBe(true);
        if (question === 'field') expect(answer, column).toSatisfy(isFieldName);
        if (question === 'unit') expect(answer, column).toSatisfy(isUnitCode);
      }
    }
    expect(demoFileAnswers.map(({ file, answers }) => [file, answers.map((each) => each.answer)])).toEqual([
      ['uplift list 2026-06.tsv', ['month first', 'month first']],
      ['uplift list 2026-08.tsv', [',']]
    ]);
  });

  it('write the swapped month with the month first, and the comma month without a decimal point', () => {
    const ends = (name: string): string[] =>
      (texts.get(name) ?? '')
        .split('\n')
        .flatMap((line) => /^\d{8}\t[^\t]*\t(\d\d\/\d\d)\/2026/.exec(line)?.[1] ?? []);
    const swapped = ends('uplift list 2026-06.tsv');
    const usual = ends('uplift list 2026-07.tsv');
    expect(swapped.length).toBeGreaterThan(3000);
    expect(swapped.filter((date) => !/^0[67]\//.test(date))).toEqual([]);
    expect(usual.filter((date) => !/\/0[78]$/.test(date))).toEqual([]);
    const densities = (name: string, mark: RegExp): number => (texts.get(name)?.match(mark) ?? []).length;
    expect(densities('uplift list 2026-08.tsv', /\t\d{3},\d\t/g)).toBeGreaterThan(3000);
    expect(densities('uplift list 2026-08.tsv', /\t\d{3}\.\d\t/g)).toBe(0);
    expect(densities('uplift list 2026-07.tsv', /\t\d{3}\.\d\t/g)).toBeGreaterThan(3000);
  });

  it('end each month of the new contractor with the sum of the volumes as written', () => {
    for (const file of files.filter(({ layout }) => layout === 'C')) {
      const lines = (texts.get(file.name) ?? '').trimEnd().split('\n');
      const total = Number(lines.at(-1)?.split('\t')[13]);
      const rowLines = lines.filter((line) => /^\d{8}\t/.test(line));
      const sumL = rowLines.reduce((sum, line) => {
        const cell = line.split('\t')[13] ?? '';
        return sum + (/^\d+$/.test(cell) ? Number(cell) : 0);
      }, 0);
      expect(sumL).toBe(total);
    }
  });

  it('stand where the truth says, line by line', () => {
    const lines = new Map(
      [...texts].map(([name, text]) => [name, text.replace('\uFEFF', '').split(/\r?\n/)])
    );
    for (const record of truth.records) {
      const line = lines.get(record.file)?.[record.line - 1] ?? 'no line';
      if (record.ticket !== '') expect(line.startsWith(record.ticket)).toBe(true);
      else if (record.kind === 'blank-line') expect(line).toBe('');
      else if (record.kind === 'totals-line') expect(line).toMatch(/^Total/);
      else expect(line).toMatch(/^(Ticket|Delivery note|Slip|checked by)/);
    }
  });

  it('have no story, slip or odd line where faults are off', () => {
    const quiet = demoTruth({ ...small, faults: false });
    expect(quiet.files).toHaveLength(demoMonths.length);
    expect(quiet.stories).toEqual([]);
    expect(quiet.records.filter((record) => record.kind !== 'totals-line')).toEqual([]);
  });
});

describe('the benchmark file', () => {
  it('has exactly the rows asked for, in 25 columns, each of the same count of cells', () => {
    const lines = textOf(benchmarkFile(5000)).trimEnd().split('\n');
    expect(lines).toHaveLength(5001);
    expect(new Set(lines.map((line) => line.split(',').length))).toEqual(new Set([25]));
    expect(lines[0]).toBe(
      'ticket,time_utc,station,tail,type,flight,supplier,vehicle,meter,grade,volume_l,meter_start_l,meter_stop_l,' +
        'density_observed_kg_m3,density_temperature_c,fuel_temperature_c,density_certificate15_kg_m3,' +
        'arrival_fuel_kg,departure_fuel_kg,ground_burn_kg,defuelled_kg,ordered_kg,water_test,visual,' +
        'conductivity_ps_m'
    );
  });
});

describe('the truth of the demo', () => {
  it('tells sixteen stories in the order of their numbers', () => {
    expect(demoStories.map((story) => story.number)).toEqual(
      Array.from({ length: 16 }, (_, index) => index + 1)
    );
    expect(truthStoriesCsv(truth).split('\r\n')).toHaveLength(16 + 2);
  });

  it('can be saved: as JSON without loss, and as CSV with a line for each record', () => {
    expect(JSON.parse(JSON.stringify(truth))).toEqual(truth);
    const csv = truthRecordsCsv(truth).split('\r\n');
    expect(csv).toHaveLength(truth.records.length + 2);
    expect(csv[0]).toBe(
      'file,line,ticket,station,tail,time,kind,field,factor,true_value,written_value,story'
    );
  });

  // Factors: NIST Handbook 44 Appendix C.
  it.each([
    ['us-gallons-as-litres', 1 / 3.785411784],
    ['imperial-gallons-as-litres', 1 / 4.54609],
    ['pounds-as-kilograms', 1 / 0.45359237]
  ])('gives %s the factor %d between what was written and what was true', (kind, factor) => {
    const records = truth.records.filter((record) => record.kind === kind);
    expect(records.length).toBeGreaterThan(5);
    for (const record of records) {
      expect(Number(record.writtenValue) / Number(record.trueValue) / factor).toBeCloseTo(1, 2);
      expect((record.factor ?? NaN) / factor).toBeCloseTo(1, 2);
    }
  });

  it.each([
    [
      'digits-transposed',
      (written: string, before: string) => digitsOf(written).sort().join() === digitsOf(before).sort().join()
    ],
    [
      'single-digit',
      (written: string, before: string) =>
        written.length === before.length &&
        digitsOf(written).filter((digit, index) => digit !== before[index]).length === 1
    ]
  ])('calls %s only what it is', (kind, is) => {
    const records = truth.records.filter((record) => record.kind === kind);
    expect(records.length).toBeGreaterThan(30);
    expect(records.filter((record) => !is(record.writtenValue, record.trueValue))).toEqual([]);
  });
});
