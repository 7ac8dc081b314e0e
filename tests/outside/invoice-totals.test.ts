import {
  currency,
  type DocumentAdjustment,
  type DocumentLine,
  documentTotals,
  formatAmount,
  lineNet,
  minorUnits,
  type PricedDocument,
} from '@fairlead/money';
import currencyCodes from 'currency-codes';
import { describe, expect, test } from 'vitest';

// Source of all totals below: the example invoices published with the EN 16931 validation artefacts
// (UBL 2.1), each named by its file. Rules BR-CO-10 to BR-CO-17 are those of EN 16931-1.

type Shares = [category: 'S' | 'E', rate: string, base: string, tax: string][];

/** One line a tax category and rate, net of the given document charges and allowances on 25 %. */
function lines(shares: Shares): DocumentLine[] {
  return shares.map(([taxCategory, taxRate, unitPrice], index) => ({
    id: String(index + 1),
    quantity: '1',
    unitPrice,
    taxCategory,
    taxRate,
  }));
}

interface Published {
  readonly file: string;
  readonly document: PricedDocument;
  readonly tax: Shares;
  /** BT-106, BT-107, BT-108, BT-109, BT-110, BT-112, BT-115 as printed. */
  readonly totals: readonly [string, string, string, string, string, string, string];
}

const at25 = (amount: string): DocumentAdjustment => ({ amount, taxCategory: 'S', taxRate: '25' });
const negative: Shares = [['S', '25', '-625743.54', '-156435.89']];
const groceries: Shares = [
  ['S', '6', '183.23', '10.99'],
  ['S', '21', '46.37', '9.74'],
];
const charged: Shares = [['S', '25', '900.00', '225.00']];
const discounted: Shares = [['S', '25', '12.12', '3.03']];
const mixed: Shares = [
  ['E', '0', '-25.00', '0.00'],
  ['S', '15', '1.00', '0.15'],
  ['S', '25', '1460.50', '365.13'],
];
const twoRates: Shares = [
  ['S', '12', '2500.00', '300.00'],
  ['S', '25', '1500.00', '375.00'],
];
const energy: Shares = [['S', '21', '908.91', '190.87']];

const published: Published[] = [
  {
    file: 'BIS3_Invoice_negativ.XML',
    document: { currency: 'DKK', lines: lines(negative) },
    tax: negative,
    totals: ['-625743.54', '0.00', '0.00', '-625743.54', '-156435.89', '-782179.43', '-782179.43'],
  },
  {
    file: 'guide-example1.xml',
    document: { currency: 'EUR', lines: lines(groceries) },
    tax: groceries,
    totals: ['229.60', '0.00', '0.00', '229.60', '20.73', '250.33', '250.33'],
  },
  {
    file: 'guide-example3.xml',
    document: {
      currency: 'DKK',
      lines: lines([['S', '25', '800.00', '']]),
      charges: [at25('100.00')],
    },
    tax: charged,
    totals: ['800.00', '0.00', '100.00', '900.00', '225.00', '1125.00', '1125.00'],
  },
  {
    file: 'sample-discount-price.xml',
    document: { currency: 'EUR', lines: lines(discounted) },
    tax: discounted,
    totals: ['12.12', '0.00', '0.00', '12.12', '3.03', '15.15', '15.15'],
  },
  {
    file: 'ubl-tc434-example1.xml',
    document: { currency: 'EUR', lines: lines(groceries) },
    tax: groceries,
    totals: ['229.60', '0.00', '0.00', '229.60', '20.73', '250.33', '250.33'],
  },
  {
    file: 'ubl-tc434-example2.xml',
    document: {
      currency: 'NOK',
      lines: lines(mixed),
      allowances: [at25('100.00')],
      charges: [at25('100.00')],
      paid: '1000.00',
    },
    tax: mixed,
    totals: ['1436.50', '100.00', '100.00', '1436.50', '365.28', '1801.78', '801.78'],
  },
  ...['ubl-tc434-example4.xml', 'ubl-tc434-example6.xml'].map(
    (file): Published => ({
      file,
      document: { currency: 'DKK', lines: lines(twoRates) },
      tax: twoRates,
      totals: ['4000.00', '0.00', '0.00', '4000.00', '675.00', '4675.00', '4675.00'],
    }),
  ),
  {
    file: 'ubl-tc434-example8.xml',
    document: { currency: 'EUR', lines: lines(energy) },
    tax: energy,
    totals: ['908.91', '0.00', '0.00', '908.91', '190.87', '1099.78', '1099.78'],
  },
];

describe('published example invoices, a line for each tax category and rate', () => {
  test.each(published)('$file', ({ document, tax, totals }) => {
    const total = documentTotals(document);
    const text = (amount: Parameters<typeof formatAmount>[0]) =>
      formatAmount(amount, document.currency);
    expect([
      text(total.lineSum),
      text(total.allowances),
      text(total.charges),
      text(total.net),
      text(total.taxTotal),
      text(total.gross),
      text(total.due),
    ]).toEqual(totals);
    expect(
      total.tax.map(({ category, rate, base, amount }) => [
        category,
        rate,
        text(base),
        text(amount),
      ]),
    ).toEqual(tax);
  });
});

describe('published example invoices, line by line', () => {
  const line = (id: string, quantity: string, unitPrice: string, taxRate: string) =>
    ({ id, quantity, unitPrice, taxCategory: taxRate === '0' ? 'E' : 'S', taxRate }) as const;

  test('guide-example1.xml: 20 lines, one of them goods returned', () => {
    // The file prints line 20 as 6 × 18.33 = -109.98; the sign belongs to the quantity.
    const rows: [string, string, string, string][] = [
      ['2', '9.95', '6', '19.90'],
      ['1', '9.85', '6', '9.85'],
      ['1', '8.29', '6', '8.29'],
      ['2', '7.23', '6', '14.46'],
      ['1', '35.00', '6', '35.00'],
      ['1', '35.00', '6', '35.00'],
      ['1', '10.65', '6', '10.65'],
      ['1', '1.55', '6', '1.55'],
      ['3', '4.79', '6', '14.37'],
      ['1', '8.29', '6', '8.29'],
      ['2', '8.29', '6', '16.58'],
      ['1', '9.95', '6', '9.95'],
      ['2', '1.65', '6', '3.30'],
      ['1', '10.80', '21', '10.80'],
      ['1', '3.90', '6', '3.90'],
      ['2', '3.80', '21', '7.60'],
      ['2', '4.67', '21', '9.34'],
      ['1', '18.63', '21', '18.63'],
      ['6', '17.02', '6', '102.12'],
      ['-6', '18.33', '6', '-109.98'],
    ];
    const total = documentTotals({
      currency: 'EUR',
      lines: rows.map(([quantity, price, rate], index) =>
        line(String(index + 1), quantity, price, rate),
      ),
    });
    expect(total.lines.map(({ net }) => formatAmount(net, 'EUR'))).toEqual(
      rows.map(([, , , net]) => net),
    );
    expect(total.tax.map(({ base, amount }) => [base, amount])).toEqual([
      [18323n, 1099n],
      [4637n, 974n],
    ]);
    expect(total.due).toBe(25033n);
  });

  test('ubl-tc434-example2.xml: allowances on a line, returns, three rates, prepaid', () => {
    // The file gives line 1 a quantity of 2 and a net of 1273.00 at 1273.00 each: the net is right, the quantity is not.
    const damaged = {
      ...line('1', '1', '1273.00', '25'),
      allowances: [{ amount: '12.00', reason: 'Damage' }],
      charges: [{ amount: '12.00', reason: 'Testing' }],
    };
    const total = documentTotals({
      currency: 'NOK',
      lines: [
        damaged,
        line('2', '-1', '3.96', '15'),
        line('3', '2', '2.48', '15'),
        line('4', '-1', '25.00', '0'),
        line('5', '250', '0.75', '25'),
      ],
      allowances: [at25('100.00')],
      charges: [at25('100.00')],
      paid: '1000.00',
    });
    expect(total.lines.map(({ net }) => net)).toEqual([127300n, -396n, 496n, -2500n, 18750n]);
    expect([total.net, total.taxTotal, total.gross, total.due]).toEqual([
      143650n,
      36528n,
      180178n,
      80178n,
    ]);
  });

  test('sample-discount-price.xml: 100 at 0.1212', () => {
    expect(
      lineNet({ quantity: '100.000', unitPrice: '0.1212', priceBaseQuantity: '1' }, 'EUR'),
    ).toBe(1212n);
  });
});

test('720.81 + 0.01 − 720.81 − 0.01 is 0.00, without a sign', () => {
  const amounts = ['720.81', '0.01', '-720.81', '-0.01'];
  const total = documentTotals({
    currency: 'EUR',
    lines: amounts.map((unitPrice, index) => ({
      id: String(index),
      quantity: '1',
      unitPrice,
      taxCategory: 'S',
      taxRate: '20',
    })),
  });
  expect(
    [total.net, total.taxTotal, total.due].map((amount) => formatAmount(amount, 'EUR')),
  ).toEqual(['0.00', '0.00', '0.00']);
});

describe('minor units', () => {
  // ISO 4217: USD 2, JPY 0, KWD 3.
  test.each([
    ['USD', 2],
    ['JPY', 0],
    ['KWD', 3],
  ])('%s has %d (ISO 4217)', (code, places) => {
    expect(minorUnits[currency(code)]).toBe(places);
  });

  // npm currency-codes, made from the list that the ISO 4217 maintenance agency publishes (2024-06-25).
  test.each(Object.entries(minorUnits))('%s has %d in the published list', (code, places) => {
    expect(currencyCodes.code(code)?.digits).toBe(places);
  });
});

describe('14 CFR part 39 cost paragraphs: work-hours × rate + parts, times the fleet', () => {
  interface Cost {
    readonly directive: string;
    readonly hours: string;
    readonly rate: string;
    readonly parts: string;
    readonly each: string;
    readonly fleet?: readonly [count: string, total: string];
  }
  // Each row as printed in the cost paragraph of the directive named.
  const costs: Cost[] = [
    {
      directive: 'AD 2017-26-03',
      hours: '5',
      rate: '85',
      parts: '0',
      each: '425.00',
      fleet: ['513', '218025.00'],
    },
    { directive: 'AD 2018-07-02', hours: '4', rate: '85', parts: '89179', each: '89519.00' },
    {
      directive: 'AD 2017-25-17',
      hours: '1',
      rate: '85',
      parts: '0',
      each: '85.00',
      fleet: ['14', '1190.00'],
    },
    { directive: 'AD 2017-25-17', hours: '10', rate: '85', parts: '23905', each: '24755.00' },
    { directive: 'AD 2017-18-13', hours: '4', rate: '85', parts: '124000', each: '124340.00' },
    { directive: 'AD 2020-02-17', hours: '6', rate: '85', parts: '192304', each: '192814.00' },
    { directive: 'AD 2017-18-10', hours: '1', rate: '85', parts: '430', each: '515.00' },
  ];
  const cost = ({ hours, rate, parts }: Cost) =>
    documentTotals({
      currency: 'USD',
      lines: [
        { id: 'labour', quantity: hours, unitPrice: rate, taxCategory: 'O', taxRate: '0' },
        { id: 'parts', quantity: '1', unitPrice: parts, taxCategory: 'O', taxRate: '0' },
      ],
    }).due;

  test.each(costs)('$directive: $hours × $rate + $parts = $each', (row) => {
    const each = formatAmount(cost(row), 'USD');
    expect(each).toBe(row.each);
    if (row.fleet !== undefined) {
      const [quantity, total] = row.fleet;
      expect(formatAmount(lineNet({ quantity, unitPrice: each }, 'USD'), 'USD')).toBe(total);
    }
  });

  test('AD 2018-02-07 prints 0.5 × 85 = 42.50 as 43: half up to whole dollars', () => {
    const half = {
      directive: 'AD 2018-02-07',
      hours: '0.5',
      rate: '85',
      parts: '0',
      each: '42.50',
    };
    expect(formatAmount(cost(half), 'USD')).toBe('42.50');
    // JPY has no decimals, so it shows the same rounding to whole units.
    expect(lineNet({ quantity: '0.5', unitPrice: '85' }, 'JPY')).toBe(43n);
  });

  test('AD 2017-18-10 prints 64,000 for 190 × 340: a misprint, it is 64,600', () => {
    const each = formatAmount(
      cost({ directive: 'AD 2017-18-10', hours: '4', rate: '85', parts: '0', each: '340.00' }),
      'USD',
    );
    const fleet = formatAmount(lineNet({ quantity: '190', unitPrice: each }, 'USD'), 'USD');
    expect(fleet).toBe('64600.00');
    expect(fleet).not.toBe('64000.00');
  });
});
