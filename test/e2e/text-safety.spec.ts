import { writeFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import { visibleText } from '../../src/lib/ui/visible-text.ts';
import { expect, test } from './support/fixture.ts';
import { builtPages, waitReady } from './support/site.ts';

/**
 * Texts that would be something else than text where they are put into markup, an attribute or an address. Each holds
 * the mark by which its traces are looked for.
 */
const mark = 'pwned';
const hostile = [
  `<img src=x onerror="window.${mark}=1">`,
  `<script>window.${mark}=2</script>`,
  `"><svg onload=window.${mark}=3>`,
  `' onmouseover='window.${mark}=4`,
  `javascript:window.${mark}=5`,
  `data:text/html,<script>window.${mark}=6</script>`,
  `</title><iframe src=//${mark}.invalid>`,
  `</textarea></style></script><b>${mark}`,
  `{{${mark}}} \${${mark}} <%= ${mark} %> {@html ${mark}}`,
  `&lt;b&gt;${mark}&amp;`,
  `//${mark}.invalid/x?y#z`,
  `%3Cimg src=x onerror=${mark}%3E`,
  `url(//${mark}.invalid)`,
  `<a href="#" id=${mark} name=${mark}>x</a>`,
  `\u202e${mark}\u202c`,
  `x\ufeff${mark}\u200b`,
  `__proto__ ${mark}`,
  `<math><mi xlink:href="javascript:${mark}">`
];

const columns = [
  'Ticket',
  'End (UTC)',
  'Station',
  'Tail',
  'Supplier',
  'Vehicle',
  'Flight',
  'Batch',
  'Remarks'
];
const header = [
  ...columns,
  'Volume (L)',
  'Density (kg/m3)',
  'Arrival fuel (kg)',
  'Departure fuel (kg)',
  `<i>${mark}`
];
const quoted = (text: string) => `"${text.replaceAll('"', '""')}"`;

/** Each text in each column of text, one record after the other, and two records that are refused for a text in a number. */
function hostileFile(): string {
  const rows = hostile.map((text, i) => {
    const turned = (by: number) => quoted(hostile[(i + by) % hostile.length] ?? '');
    const time = `2031-07-${String(i + 1).padStart(2, '0')}T10:00:00Z`;
    const texts = [turned(1), turned(2), turned(3), turned(4), turned(5), turned(6)].join(',');
    return `${quoted(text)},${time},${texts},${turned(7)},${8000 + i},800,2000,${8400 + i * 10},${turned(8)}`;
  });
  const refused = hostile
    .slice(0, 2)
    .map((text, i) => `R${i},2031-07-30T10:00:00Z,J,Q,S,V,F,B,x,${quoted(text)},800,1,2,x`);
  return [header.map(quoted).join(','), ...rows, ...refused].join('\n');
}

/** What of the marked texts became markup: elements, attributes other than words for people, and parts of addresses. */
async function traces(page: Page): Promise<string[]> {
  return page.evaluate((word) => {
    const found: string[] = [];
    if (word in window) found.push('it ran');
    // Words for people, and the key by which a table finds its row again: no browser makes anything of them.
    const inert = new Set(['aria-label', 'title', 'value', 'aria-description', 'placeholder', 'data-key']);
    for (const element of document.querySelectorAll('*')) {
      if (['IMG', 'IFRAME', 'OBJECT', 'EMBED', 'MATH', 'B', 'I'].includes(element.tagName.toUpperCase())) {
        found.push(`<${element.tagName}>`);
      }
      if (element.localName.includes(word)) found.push(element.localName);
      for (const { name, value } of element.attributes) {
        if (name.startsWith('on') || name.includes(word)) found.push(`${name}=${value}`);
        if (!value.includes(word) || inert.has(name)) continue;
        // State of a link stands behind its #, percent-encoded: it is sent to no one.
        const isState =
          name === 'href' && !(value.split('#')[0] ?? '').includes(word) && !/[<>"']/.test(value);
        if (!isState) found.push(`${name}=${value}`);
      }
    }
    const { origin, pathname, search } = window.location;
    if (`${origin}${pathname}${search}`.includes(word)) found.push('the address');
    return found;
  }, mark);
}

test('any text of a file is shown as text: it runs nothing and makes no element, attribute or address', async ({
  page
}, testInfo) => {
  test.slow();
  const dialogs: string[] = [];
  page.on('dialog', (dialog) => {
    dialogs.push(dialog.message());
    void dialog.dismiss();
  });
  const path = testInfo.outputPath(`<b>${mark}=1&'.csv`);
  writeFileSync(path, hostileFile());
  await page.goto('/files/');
  await page.setInputFiles('input[type=file]', path);
  await page.getByText('How each column is read').click();
  await page.getByText('First and last records as read').click();
  await page.getByText('Read it another way').click();
  expect(await traces(page), 'while it is asked about').toEqual([]);
  await expect(
    page.getByRole('cell', { name: visibleText(hostile[0] ?? ''), exact: true }).first()
  ).toBeVisible();
  await page.getByRole('button', { name: 'Use this file' }).click();
  await waitReady(page);
  await page.getByRole('button', { name: '2 refused' }).click();
  await expect(page.getByRole('cell', { name: hostile[1] ?? '', exact: true })).toBeVisible();
  expect(await traces(page), 'among what is refused').toEqual([]);

  for (const built of builtPages()) {
    await page.goto(`/${built}`);
    await waitReady(page);
    expect(await traces(page), `on /${built}`).toEqual([]);
    // Its name changes with the click, so the next one is the first.
    const buttons = page.getByRole('button', { name: 'Show table' });
    for (let left = await buttons.count(); left > 0; left--) await buttons.first().click();
    expect(await traces(page), `in the tables of /${built}`).toEqual([]);
  }

  // As the text that it is, sign by sign, in the grid and on the sheet of one uplift.
  await page.goto('/records/#columns=ticket,station,tail,supplier,vehicle,flight,batch,remarks');
  await waitReady(page);
  const grid = page.getByRole('grid');
  for (const [i, text] of hostile.entries()) {
    await page.goto(`/records/#columns=ticket,station,remarks&ticket=${encodeURIComponent(text)}`);
    const row = grid
      .getByRole('row')
      .filter({ has: page.getByRole('gridcell') })
      .first();
    const cells = row.locator('[role=rowheader], [role=gridcell]');
    await expect(cells.nth(0)).toHaveText(visibleText(text));
    await expect(cells.nth(1)).toHaveText(visibleText(hostile[(i + 1) % hostile.length] ?? ''));
    await expect(cells.nth(2)).toHaveText(visibleText(hostile[(i + 7) % hostile.length] ?? ''));
    if (i % 6 !== 0) continue;
    await cells.nth(0).dblclick();
    await expect(page.getByRole('heading', { level: 1 })).toContainText(
      visibleText(hostile[(i + 1) % hostile.length] ?? '').replace(/\s+/g, ' ')
    );
    await page.getByRole('button', { name: 'Show the line' }).click();
    await expect(page.locator('.raw')).toContainText(mark);
    expect(await traces(page), `on the sheet of ${text}`).toEqual([]);
  }
  expect(dialogs).toEqual([]);
});
