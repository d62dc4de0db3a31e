import { createRawSnippet } from 'svelte';
import { render } from 'svelte/server';
import { describe, expect, it } from 'vitest';
import DataTable from '#lib/ui/DataTable.svelte';
import Figure from '#lib/ui/Figure.svelte';
import FileDrop from '#lib/ui/FileDrop.svelte';
import FilterSentence from '#lib/ui/FilterSentence.svelte';
import LogbookPage from '#lib/ui/LogbookPage.svelte';
import Progress from '#lib/ui/Progress.svelte';
import RadioQuestion from '#lib/ui/RadioQuestion.svelte';
import Stamp from '#lib/ui/Stamp.svelte';
import WindowedTable from '#lib/ui/WindowedTable.svelte';
import { tidy } from '../charts/drawn.ts';

const words = (text: string) => createRawSnippet(() => ({ render: () => `<span>${text}</span>` }));
const columns = [
  { key: 'tail', label: 'Tail', kind: 'code' as const },
  { key: 'mean', label: 'Mean', unit: '%', kind: 'number' as const },
  { key: 'mark', label: 'Mark' }
];
const rows = [
  {
    key: 'a',
    cells: [
      { text: 'Q7-KEB' },
      { text: '+1.94', sort: 1.94, tone: 'plus' as const },
      { text: 'outside', mark: 'ringed' as const }
    ]
  },
  {
    key: 'b',
    cells: [
      { text: 'Q7-KEC' },
      { text: '\u22120.20', sort: -0.2, struck: '0.20' },
      { text: 'within', mark: 'open' as const }
    ]
  }
];

describe('a table', () => {
  const table = tidy(
    render(DataTable, {
      props: {
        caption: 'Tails',
        columns,
        rows,
        sort: { column: 'mean', direction: 'ascending' as const },
        onopen: () => undefined
      }
    })
  );

  it('has a caption, column headers with units and row headers', () => {
    expect(table).toMatch(/<caption[^>]*>Tails<\/caption>/);
    expect(table.match(/<th scope="col"/g)).toHaveLength(3);
    expect(table).toMatch(/<span class="unit[^"]*">%<\/span>/);
    expect(table.match(/<th scope="row"/g)).toHaveLength(2);
  });

  it('says which column sorts and how, and sorts by it', () => {
    expect(table.match(/aria-sort="(\w+)"/g)).toEqual([
      'aria-sort="none"',
      'aria-sort="ascending"',
      'aria-sort="none"'
    ]);
    expect(table.indexOf('Q7-KEC')).toBeLessThan(table.indexOf('Q7-KEB'));
  });

  it('opens a row by a button, stamps a verdict with its word, strikes an old value once', () => {
    expect(table).toMatch(/<button type="button" class="plain[^"]*">Q7-KEB<\/button>/);
    expect(table).toMatch(/class="stamp[^"]*warn[^"]*"[^]*outside/);
    expect(table).toContain('<s>0.20</s>');
  });
});

describe('a figure', () => {
  it('builds its twin only when it is asked for', () => {
    let built = 0;
    const figure = tidy(
      render(Figure, {
        props: {
          heading: 'Bias by tail',
          description: 'Dots.',
          fileName: 'bias',
          chart: words('chart'),
          twin: () => {
            built++;
            return { caption: 'Bias', columns, rows };
          }
        }
      })
    );
    expect(built).toBe(0);
    expect(figure).not.toContain('<table');
    expect(figure).toMatch(/<figure aria-labelledby="([^"]+)"[^]*<h2 id="\1"/);
    expect(figure).toMatch(
      /<button type="button" aria-expanded="false" aria-controls="([^"]+)"[^]*<div id="\1"/
    );
  });
});

describe('the controls', () => {
  it('the file input takes many files and is named by its label', () => {
    const drop = tidy(
      render(FileDrop, {
        props: {
          label: 'Choose CSV files',
          hint: 'They stay here.',
          onfiles: () => undefined
        }
      })
    );
    expect(drop).toMatch(
      /<label id="[^"]+" for="([^"]+)"[^>]*>Choose CSV files<\/label>\s*<input id="\1" type="file" multiple/
    );
    expect(drop).toMatch(/aria-describedby="([^"]+)"[^]*<p id="\1"/);
  });

  it('a question is a group named by its words, with radio buttons', () => {
    const question = tidy(
      render(RadioQuestion, {
        props: {
          question: 'Question: which comes first?',
          answers: [
            { value: 'day', label: 'Day' },
            { value: 'month', label: 'Month' }
          ],
          value: 'month',
          onanswer: () => undefined,
          sample: { headers: ['Date'], rows: [['3/4/2021']] }
        }
      })
    );
    expect(question).toMatch(/<fieldset[^>]*><legend>Question: which comes first\?<\/legend>/);
    expect(question.match(/type="radio"/g)).toHaveLength(2);
    expect(question.match(/ checked/g)).toHaveLength(1);
    expect(question).toContain('3/4/2021');
  });

  it('each part of the filter sentence has its own removal, named', () => {
    const sentence = tidy(
      render(FilterSentence, {
        props: {
          count: '2 of 9 records',
          parts: [{ label: 'station', value: 'JGAL', removes: 'removes 7', onremove: () => undefined }]
        }
      })
    );
    expect(sentence).toContain('aria-label="Remove station JGAL"');
    expect(sentence).toMatch(/role="status"[^>]*>2 of 9 records/);
  });

  it('progress without a known whole claims no number', () => {
    expect(tidy(render(Progress, { props: { label: 'Reading', fraction: 0.4 } }))).toContain(
      'aria-valuenow="40"'
    );
    expect(tidy(render(Progress, { props: { label: 'Reading', fraction: NaN } }))).not.toContain(
      'aria-valuenow'
    );
  });

  it('a stamp has its word whatever its mark', () => {
    for (const mark of ['open', 'half', 'ringed', 'plain'] as const)
      expect(tidy(render(Stamp, { props: { mark, word: 'a word' } }))).toContain('a word');
    expect(tidy(render(Stamp, { props: { mark: 'ringed', word: 'outside' } }))).toMatch(
      /class="stamp[^"]*warn/
    );
    expect(tidy(render(Stamp, { props: { mark: 'half', word: 'outside' } }))).not.toMatch(/warn/);
  });
});

describe('a page', () => {
  it('carries its stub, one heading and the sentence that answers', () => {
    const page = tidy(
      render(LogbookPage, {
        props: {
          mark: 'T-4',
          heading: 'Trend',
          stub: [
            { label: 'Rows', value: '2 851 of 60 214', mono: true },
            { label: 'Files', value: '16 of 18', warn: true }
          ],
          lead: words('It moved.'),
          children: words('body')
        }
      })
    );
    expect(page.match(/<h1/g)).toHaveLength(1);
    expect(page).toMatch(/<aside[^>]*aria-label="Stub of this page"[^]*T-4[^]*16 of 18/);
    expect(page).toMatch(/class="warn[^"]*">16 of 18|class="[^"]*warn">16 of 18/);
  });
});

describe('the grid of records', () => {
  it('says how many rows there are though few are on the page', () => {
    const grid = tidy(
      render(WindowedTable, {
        props: {
          caption: 'Records',
          count: 5_000_000,
          columns: columns.map((column) => ({
            ...column,
            widthPx: 100,
            sortable: true,
            held: column.key === 'tail'
          })),
          rows: () => Promise.resolve([]),
          onsort: () => undefined
        }
      })
    );
    expect(grid).toContain('aria-rowcount="5000001"');
    expect(grid).toContain('aria-rowindex="2"');
    expect((grid.match(/role="row"/g) ?? []).length).toBeLessThan(60);
    expect(grid.match(/aria-sort="none"/g)).toHaveLength(3);
    expect(grid).toMatch(/role="rowheader"/);
  });
});
