import fs from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { moneyCommand } from '../../scripts/money.ts';
import { folderFor } from './labour-command.ts';
import { runCommand } from './run-command.ts';

const { folder, write } = folderFor();
afterAll(() => fs.rmSync(folder, { recursive: true }));

const total = (document: unknown) =>
  runCommand(moneyCommand, 'total', write('document.json', document));
const line = (over: Record<string, unknown> = {}) => ({
  ...{ id: '1', quantity: '1', unitPrice: '100.00', taxCategory: 'S', taxRate: '25' },
  ...over,
});

describe('money total', () => {
  it('answers every total as a decimal text', () => {
    // A line by hand: 3 × 10.005 = 30.015 → 30.02, less 1.00; 100 per 8 → 12.50 each 8, 20 of them 250.00.
    const { code, out, told } = total({
      currency: 'EUR',
      lines: [
        line({ quantity: '3', unitPrice: '10.005', allowances: [{ amount: '1.00' }] }),
        line({ id: '2', quantity: '20', unitPrice: '100', priceBaseQuantity: '8', taxRate: '7.0' }),
        line({ id: '3', unitPrice: '-12.00', taxCategory: 'E', taxRate: '0' }),
      ],
      allowances: [{ amount: '9.02', taxCategory: 'S', taxRate: '25.00' }],
      charges: [{ amount: '5.00', taxCategory: 'S', taxRate: '7' }],
      paid: '100.00',
      rounding: '0.15',
    });
    expect([code, told]).toEqual([0, '']);
    expect(JSON.parse(out)).toEqual({
      currency: 'EUR',
      lines: [
        { id: '1', net: '29.02' },
        { id: '2', net: '250.00' },
        { id: '3', net: '-12.00' },
      ],
      lineSum: '267.02',
      allowances: '9.02',
      charges: '5.00',
      net: '263.00',
      tax: [
        { category: 'E', rate: '0', base: '-12.00', amount: '0.00' },
        { category: 'S', rate: '7', base: '255.00', amount: '17.85' },
        { category: 'S', rate: '25', base: '20.00', amount: '5.00' },
      ],
      taxTotal: '22.85',
      gross: '285.85',
      due: '186.00',
    });
  });

  it('keeps to the minor unit of the currency', () => {
    const of = (currency: string, unitPrice: string) =>
      JSON.parse(total({ currency, lines: [line({ unitPrice, taxRate: '10' })] }).out) as {
        gross: string;
      };
    expect(of('JPY', '99.5').gross).toBe('110');
    expect(of('KWD', '1.0005').gross).toBe('1.101');
    expect(of('BHD', '1').gross).toBe('1.100');
  });

  it('says which fields it has no use for', () => {
    const { code, told } = total({ currency: 'USD', note: 'x', lines: [line({ title: 'Oil' })] });
    expect([code, told]).toEqual([0, 'Not used: note, lines[0].title.\n']);
  });

  it.each<[string, unknown, RegExp]>([
    [
      'a number instead of text',
      { currency: 'USD', lines: [line({ quantity: 1.1 })] },
      /lines\[0\]\.quantity is 1\.1; text is needed/,
    ],
    ['no lines', { currency: 'USD' }, /lines is missing; a list is needed/],
    ['a list', [], /The document is \[\]; an object is needed/],
    ['a line that is none', { currency: 'USD', lines: [null] }, /lines\[0\] is null; an object/],
    ['no currency', { lines: [] }, /currency is missing/],
    ['a currency that is none', { currency: 'ABC', lines: [] }, /Cannot use currency "ABC"/],
    [
      'two lines of one id',
      { currency: 'USD', lines: [line(), line()] },
      /two lines with the id 1/,
    ],
    [
      'an exponent',
      { currency: 'USD', lines: [line({ unitPrice: '1e3' })] },
      /Cannot read "1e3" as unit price/,
    ],
    [
      'no such category',
      { currency: 'USD', lines: [line({ taxCategory: 'X' })] },
      /Cannot tax category "X"/,
    ],
    [
      'an exempt line with a rate',
      { currency: 'USD', lines: [line({ taxCategory: 'E' })] },
      /its rate is 0/,
    ],
    [
      'a base quantity of 0',
      { currency: 'USD', lines: [line({ priceBaseQuantity: '0' })] },
      /base quantity above 0/,
    ],
    [
      'a payment with a third decimal',
      { currency: 'USD', lines: [], paid: '1.005' },
      /USD has 2 decimal places/,
    ],
    [
      'an allowance without its tax',
      { currency: 'USD', lines: [], allowances: [{ amount: '1' }] },
      /allowances\[0\]\.taxCategory is missing/,
    ],
  ])('refuses %s', (_name, document, words) => {
    const { code, out, told } = total(document);
    expect([code, out]).toEqual([1, '']);
    expect(told).toMatch(words);
  });

  it('says how it is called', () => {
    expect(runCommand(moneyCommand, '--help')).toMatchObject({ code: 0, told: '' });
    expect(runCommand(moneyCommand).code).toBe(2);
    expect(runCommand(moneyCommand, 'sum')).toMatchObject({ code: 2, out: '' });
    expect(runCommand(moneyCommand, 'total').told).toContain(
      'It needs DOCUMENT.json; got nothing.',
    );
    expect(runCommand(moneyCommand, 'total', write('text.json', 'total: 3')).told).toContain(
      'is not JSON',
    );
    expect(runCommand(moneyCommand, 'total', '/nowhere.json').told).toContain(
      'there is no such file',
    );
  });
});
