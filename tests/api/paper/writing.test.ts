import {
  decimalText,
  dimensionOf,
  grouped,
  hoursText,
  moneyText,
  recordHours,
  roundMoneyText,
} from '@fairlead/api/paper/figures';
import { chainOf } from '@fairlead/api/paper/invoice-figures';
import { DrawingSheet } from '@fairlead/api/paper/sheet';
import { mm } from '@fairlead/api/paper/sizes';
import { drawTable } from '@fairlead/api/paper/table';
import { legible, signsIn } from '@fairlead/api/paper/typeface';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { recordHours as webRecordHours } from '../../../apps/web/features/records/records-words.ts';
import * as webHours from '../../../apps/web/lib/figures/hours.ts';
import * as webMoney from '../../../apps/web/lib/figures/money.ts';
import { differenceText } from '../../../apps/web/lib/figures/quantity.ts';
import { boxesOf, inkOf, pageSizes, picture, poppler, words } from './printed.ts';

const amounts = fc.bigInt({ min: -(10n ** 11n), max: 10n ** 11n });
const hours = fc.double({ min: 0, max: 5000, noNaN: true });

it('writes every figure as the page does', () => {
  fc.assert(
    fc.property(amounts, fc.constantFrom('USD', 'EUR', 'JPY'), (amount, code) => {
      expect(moneyText(amount, code)).toBe(webMoney.moneyText(amount, code));
      expect(roundMoneyText(amount, code)).toBe(webMoney.roundMoneyText(amount, code));
    }),
  );
  fc.assert(
    fc.property(hours, fc.nat(9_999_999), (value, hundredths) => {
      expect(hoursText(value)).toBe(webHours.hoursText(value));
      expect(recordHours(hundredths)).toBe(webRecordHours(hundredths));
    }),
  );
});

it('writes an estimate as nominal with its tolerances, as the page does', () => {
  fc.assert(
    fc.property(fc.array(hours, { minLength: 4, maxLength: 4 }), (given) => {
      const [p10 = 0, p50 = 0, p80 = 0, p90 = 0] = [...given].sort((a, b) => a - b);
      fc.pre(p10 !== p90);
      const { nominal, tolerance } = dimensionOf({ unit: 'h', p10, p50, p80, p90 });
      expect(nominal).toBe(webHours.hoursText(p50));
      expect(tolerance?.up).toBe(differenceText(p50, p90, 'h'));
      expect(tolerance?.down).toBe(differenceText(p50, p10, 'h'));
    }),
  );
  expect(dimensionOf({ unit: 'h', p10: 2.4, p50: 3.16, p80: 4, p90: 4.58 })).toEqual({
    nominal: '3.2',
    tolerance: { up: '+1.4', down: '−0.8' },
    range: '2.4 to 4.6',
  });
  const firm = { unit: 'USD', p10: 124_050n, p50: 124_050n, p80: 124_050n, p90: 124_050n };
  expect(dimensionOf(firm)).toEqual({ nominal: '1,240.50', tolerance: null, range: null });
  expect(grouped('1240.50')).toBe('1,240.50');
  expect([decimalText('1092.5', 2), decimalText('-0.1234', 2), decimalText('3.000', 0)]).toEqual([
    '1,092.50',
    '−0.1234',
    '3',
  ]);
});

it('says when a chain does not close', () => {
  const step = { kind: 'labour', title: 'more labour', amount: '500' } as const;
  expect(chainOf({ quoted: '1000', net: '1500', difference: [step] })?.closes).toBe(true);
  expect(chainOf({ quoted: '1000', net: '1501', difference: [step] })?.closes).toBe(false);
  expect(chainOf({ quoted: null, net: '-1500', difference: [] })).toBeNull();
});

const newSheet = (paper: 'a4' | 'sheet' = 'a4') =>
  new DrawingSheet({
    paper,
    title: 'A test',
    at: new Date('2026-03-14T09:00:00Z'),
    block: {
      what: 'A test whose name is far longer than the two lines that a title block has for it, so that it has to be cut short somewhere',
      rows: [[{ label: 'Aircraft', value: 'QQ-117 with more words than its cell can take' }]],
      shop: { name: 'Test Shop', place: 'Nowhere Strand' },
      printed: 'Printed',
    },
  });

it('keeps the letters of names from elsewhere, and says where it cannot', () => {
  expect(legible('Žižek, Łódź, Őrült, Yağız, Ωμέγα, Жанна ≤ 5 mm')).toBe(
    'Žižek, Łódź, Őrült, Yağız, Ωμέγα, Жанна ≤ 5 mm',
  );
  expect(legible('Z\u030ci\u030cek “naïve” – 20 °C')).toBe('Žiek “naïve” – 20 °C');
  expect(legible('岛 \u0000\u200d→')).toBe('? ->');
});

it.skipIf(!poppler)('draws every character that it says it has', async () => {
  for (const face of ['words', 'bold', 'figures', 'boldFigures'] as const) {
    const all = signsIn(face).filter(
      (sign) => sign.trim() !== '' && sign === sign.normalize('NFC'),
    );
    expect(all.length).toBeGreaterThan(850);
    const sheet = newSheet();
    sheet.text(all.join(' '), { face });
    const said = new Set((await words(await sheet.finish())).replaceAll(' ', ''));
    expect(all.filter((sign) => !said.has(sign))).toEqual([]);
  }
});

it.skipIf(!poppler)(
  'draws Ž as Z with its mark: the letters of names are there to see, each with ink of its own',
  async () => {
    const letters = ['Ž', 'Z', 'ő', 'o', 'ł', 'l', 'ğ', 'g', 'Ω', 'O', 'Ж', 'K'];
    for (const face of ['words', 'bold', 'figures'] as const) {
      const sheet = newSheet();
      for (const letter of letters) sheet.text(letter, { face, size: 30 });
      const bytes = await sheet.finish();
      const page = await picture(bytes, { dpi: 144 });
      const inks = new Map<string, string>();
      for (const box of (await boxesOf(bytes)).slice(0, letters.length))
        inks.set(box.text, await inkOf(page, box, 144));
      expect([...inks.keys()]).toEqual(letters);
      expect(new Set(inks.values()).size).toBe(letters.length);
      // As high as its neighbour of the other file: within a pixel or two of 60.
      const high = (letter: string) => Number(inks.get(letter)?.split(' ')[0]);
      expect(Math.abs(high('Ω') - high('O'))).toBeLessThanOrEqual(3);
      expect(high('Ž') - high('Z')).toBeGreaterThan(5);
    }
  },
);

it.skipIf(!poppler)(
  'keeps text and tables of any length inside of the frame, over pages',
  async () => {
    for (const paper of ['a4', 'sheet'] as const) {
      const sheet = newSheet(paper);
      const many = Array.from({ length: 1200 }, (_, index) => `w${index}`);
      sheet.text(many.join(' '));
      sheet.text('x'.repeat(1500));
      drawTable(
        sheet,
        [
          { head: 'What', width: null },
          { head: 'How much', width: 50, figures: true },
        ],
        Array.from({ length: 60 }, (_, index) => ({
          cells: [`row${index} ${'y'.repeat(index * 2)}`, `${index}.00`],
        })),
      );
      const bytes = await sheet.finish();
      const pages = pageSizes(bytes).length;
      expect(pages).toBeGreaterThan(2);
      const said = await words(bytes);
      for (const word of many) expect(said).toContain(word);
      for (let index = 0; index < 60; index += 1) expect(said).toContain(`row${index}`);
      expect(said).toContain(`${pages} of ${pages}`);
    }
  },
);

const aTable = (rows: Parameters<typeof drawTable>[2], above = 0) => {
  const sheet = newSheet();
  sheet.y += above;
  drawTable(
    sheet,
    [
      { head: 'What', width: null },
      { head: 'Amount', width: 90, figures: true },
    ],
    rows,
  );
  return sheet.finish();
};
const sums = [
  { cells: ['Net', '1.00'], outline: true },
  { cells: ['Tax', '0.08'] },
  { cells: ['With tax', '1.08'], bold: true },
];

it.skipIf(!poppler)(
  'parts a row that no page can hold, repeats the heads, and prints the whole of it',
  async () => {
    const many = Array.from({ length: 1200 }, (_, index) => `word${index}`);
    const text = many.join(' ').slice(0, 9000);
    expect(text.length).toBe(9000);
    const long = 'x'.repeat(200);
    for (const above of [0, 560, 600]) {
      const bytes = await aTable(
        [{ cells: [text, '9.00'] }, { cells: [long, '1.00'] }, ...sums],
        above,
      );
      const boxes = await boxesOf(bytes);
      const pages = Math.max(...boxes.map(({ page }) => page));
      expect(pages).toBeGreaterThanOrEqual(2);
      const said = boxes.map((box) => box.text);
      for (const word of text.split(' ')) expect(said).toContain(word);
      expect(said.filter((word) => /^x+$/.test(word)).join('')).toBe(long);
      for (let page = 1; page <= pages; page += 1) {
        const here = boxes.filter((box) => box.page === page);
        const frame = mm(8) + 1;
        for (const { left, right, top, bottom } of here) {
          expect(left).toBeGreaterThan(frame);
          expect(right).toBeLessThan(mm(210) - frame);
          expect(top).toBeGreaterThan(frame);
          expect(bottom).toBeLessThan(mm(297) - frame);
        }
        const inTable = here.some(({ text: word }) => /^(word\d+|x+|Net)$/.test(word));
        expect(here.filter(({ text: word }) => word === 'AMOUNT')).toHaveLength(inTable ? 1 : 0);
        expect(here.map(({ text: word }) => word).join(' ')).toContain(`${page} of ${pages}`);
      }
    }
  },
);

it.skipIf(!poppler)(
  'never leaves sums alone on a page: the last that they sum stands above',
  async () => {
    for (let above = 380; above < 640; above += 43) {
      for (const text of ['short', Array.from({ length: 60 }, () => 'somewhat longer').join(' ')]) {
        const rows = [{ cells: ['first', '1.00'] }, { cells: [`${text} last`, '2.00'] }, ...sums];
        const boxes = await boxesOf(await aTable(rows, above));
        const pageOf = (word: string) => boxes.find((box) => box.text === word)?.page;
        expect(pageOf('Net')).toBe(pageOf('last'));
        expect(pageOf('1.08')).toBe(pageOf('last'));
      }
    }
  },
);

it.skipIf(!poppler)('never parts a row that a page can hold, wherever it falls', async () => {
  // Once it left a number and a price at the foot of a page and their words on the next.
  for (let above = 572; above < 620; above += 3) {
    const sheet = newSheet();
    sheet.y += above;
    drawTable(
      sheet,
      [
        { head: '', width: 20 },
        { head: 'What', width: null },
        { head: 'Price', width: 130 },
      ],
      Array.from({ length: 6 }, (_, index) => ({
        cells: [
          { balloon: index + 1 },
          { text: `title${index}`, note: `note${index}` },
          {
            estimate: { unit: 'USD', p10: 100n, p50: 100n, p80: 100n, p90: 100n + BigInt(index) },
            most: 200,
          },
        ],
      })),
    );
    const boxes = await boxesOf(await sheet.finish());
    const pageOf = (word: string) => boxes.find((box) => box.text === word)?.page;
    for (let index = 0; index < 6; index += 1) {
      expect(pageOf(`title${index}`), `from ${above} pt`).toBe(pageOf(`note${index}`));
      const title = boxes.find((box) => box.text === `title${index}`);
      // Its price stands beside it.
      const beside = boxes.filter(
        (box) => box.page === title?.page && Math.abs(box.top - title.top) < 6,
      );
      expect(beside.map(({ text }) => text).join(' '), `row ${index} from ${above} pt`).toMatch(
        /1(\.00)?/,
      );
      expect(beside.length).toBeGreaterThanOrEqual(3);
    }
  }
});

it.skipIf(!poppler)('sets a cell over all that is left of the width', async () => {
  const sheet = newSheet();
  const words = Array.from({ length: 9 }, (_, index) => `long${index}`).join(' ');
  drawTable(
    sheet,
    [
      { head: 'What', width: null },
      { head: 'A', width: 40 },
      { head: 'B', width: 240 },
    ],
    [{ under: true, wideFrom: 1, cells: ['first', words, ''] }],
  );
  const boxes = await boxesOf(await sheet.finish());
  const tops = boxes.filter(({ text }) => /^(first|long\d)$/.test(text)).map(({ top }) => top);
  expect(tops).toHaveLength(10);
  expect(Math.max(...tops) - Math.min(...tops)).toBeLessThan(1);
});
