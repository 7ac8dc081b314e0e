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
import { drawTable } from '@fairlead/api/paper/table';
import { drawn, legible } from '@fairlead/api/paper/typeface';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { recordHours as webRecordHours } from '../../../apps/web/features/records/records-words.ts';
import * as webHours from '../../../apps/web/lib/figures/hours.ts';
import * as webMoney from '../../../apps/web/lib/figures/money.ts';
import { differenceText } from '../../../apps/web/lib/figures/quantity.ts';
import { pageSizes, poppler, words } from './printed.ts';

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

it('leaves no letter blank: what the typeface lacks loses its marks', () => {
  expect(legible('Žižka ≤ 5 mm')).toBe('Zizka <= 5 mm');
  expect(legible('Łódź, Ærø, “naïve” – 20 °C')).toBe('Lódz, Ærø, “naïve” – 20 °C');
  expect(legible('岛 \u0000\u200d')).toBe('? ');
});

it.skipIf(!poppler)('draws every character that it says it has', async () => {
  const all = Array.from({ length: 0x2300 }, (_, code) => String.fromCodePoint(code)).filter(
    (sign) => sign !== ' ' && drawn.test(sign),
  );
  expect(all.length).toBeGreaterThan(190);
  for (const face of ['words', 'bold', 'figures', 'boldFigures'] as const) {
    const sheet = newSheet();
    sheet.text(all.join(' '), { face });
    const said = new Set((await words(await sheet.finish())).replaceAll(' ', ''));
    expect(all.filter((sign) => !said.has(sign))).toEqual([]);
  }
});

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
