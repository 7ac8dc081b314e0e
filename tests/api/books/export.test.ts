/** What the bookkeeper takes along: CSV (RFC 4180) and XLSX (ISO/IEC 29500), read back by other people's libraries: csv-parse and SheetJS. */
import * as xlsx from '@e965/xlsx';
import { csvRecord, numberCell, textCell } from '@fairlead/api/csv';
import { globalId } from '@fairlead/api/ids';
import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { print } from '../paper/printed.ts';
import { bill, draft, issueTo, makeSold, release } from './billing.ts';

let api: TestApi;
let shop: TestShop;
let now = new Date('2031-01-31T23:30:00Z');
const TITLE = '=HYPERLINK("http://x.example";"Inspection, ""100-hour""")';

beforeAll(async () => {
  api = await startApi({ now: () => now });
  // 23:30 in UTC is the next day there.
  shop = await makeShop(api, { timeZone: 'Europe/Berlin' });
  await shop.inside((tx) =>
    tx.contact.updateMany({ data: { name: '+Owner, "the" Elder\nand Son' } }),
  );
  const visit = await makeSold(shop, {
    lines: [
      { title: TITLE, pricing: 'fixed', likelyMinor: 124_000n, unitPrice: '1240', taxRate: '4' },
    ],
    ceiling: 200_000n,
    items: [{ line: 0, seconds: 0 }],
  });
  await issueTo(shop, visit.itemIds[0] ?? '', { unitPrice: '12.345', quantity: '3' });
  await shop.as(
    'front_desk',
    'mutation($input: TakeDepositInput!) { takeDeposit(input: $input) { __typename } }',
    {
      input: {
        orderId: visit.order,
        contactId: globalId('Contact', shop.contactId),
        amount: '30000',
        method: 'card',
      },
    },
  );
  await release(shop, visit);
  const { id } = await draft(shop, visit);
  await bill(shop, 'issueInvoice', { invoiceId: id });
  now = new Date('2031-02-20T09:00:00Z');
  await bill(shop, 'recordPayment', { invoiceId: id, amount: '10000', method: 'bank transfer' });
  now = new Date('2031-03-05T09:00:00Z');
  await bill(shop, 'creditInvoice', { invoiceId: id });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const days = 'from=2031-02-01&until=2031-03-31';
async function csv(table: string, query = days): Promise<Record<string, string>[]> {
  const { status, headers, bytes } = await print(
    api,
    shop,
    `books/${table}.csv?${query}`,
    'front_desk',
  );
  expect([table, status]).toEqual([table, 200]);
  expect(headers.get('content-type')).toBe('text/csv; charset=utf-8; header=present');
  expect(headers.get('content-disposition')).toMatch(
    /^attachment; filename="[a-z]+-2031-\d\d-\d\d-2031-\d\d-\d\d\.csv"$/,
  );
  // Strict: every record as long as the head, every quote where RFC 4180 wants it.
  return parse(bytes, { columns: true, record_delimiter: '\r\n' });
}
const cents = (text: string | undefined) => BigInt((text ?? '').replace('.', ''));

it('invoices, lines, tax and payments of two days are there to the cent, with their currency, and agree with each other', async () => {
  const [invoices, lines, tax, payments] = [
    await csv('invoices'),
    await csv('lines'),
    await csv('tax'),
    await csv('payments'),
  ];
  // 1,240.00 at 4 % and 3 × 12.345 = 37.04 (37.035 away from zero) at 7 %: 49.60 + 2.59.
  expect(invoices).toEqual([
    expect.objectContaining({
      number: '1',
      kind: 'invoice',
      issued_on: '2031-02-01',
      due_on: '2031-03-03',
      currency: 'USD',
      net: '1277.04',
      tax: '52.19',
      rounding: '0.00',
      gross: '1329.23',
      takes_back: '',
    }),
    expect.objectContaining({
      number: '2',
      kind: 'credit note',
      issued_on: '2031-03-05',
      currency: 'USD',
      net: '-1277.04',
      tax: '-52.19',
      rounding: '0.00',
      gross: '-1329.23',
      takes_back: '1',
    }),
  ]);
  expect(
    tax.map(({ number, tax_category, tax_rate, base, tax: amount }) => [
      number,
      tax_category,
      tax_rate,
      base,
      amount,
    ]),
  ).toEqual([
    ['1', 'S', '4', '1240.00', '49.60'],
    ['1', 'S', '7', '37.04', '2.59'],
    ['2', 'S', '4', '-1240.00', '-49.60'],
    ['2', 'S', '7', '-37.04', '-2.59'],
  ]);
  for (const { number, net, tax: amount } of invoices) {
    const of = (rows: Record<string, string>[], column: string) =>
      rows
        .filter((row) => row['number'] === number)
        .reduce((sum, row) => sum + cents(row[column]), 0n);
    expect(of(lines, 'net')).toBe(cents(net));
    expect(of(tax, 'tax')).toBe(cents(amount));
    expect(of(tax, 'base')).toBe(cents(net));
  }
  // The deposit came on 1 February there, 300.00; 100.00 on the 20th. What was set and freed is beside it.
  expect(
    payments.map(({ on, kind, received, set_against }) => [on, kind, received, set_against]),
  ).toEqual([
    ['2031-02-01', 'deposit', '300.00', '0.00'],
    ['2031-02-01', 'deposit set against invoice', '0.00', '300.00'],
    ['2031-02-20', 'payment', '100.00', '0.00'],
    ['2031-03-05', 'deposit freed from invoice', '0.00', '-300.00'],
  ]);
});

it('a name or a title that a spreadsheet would compute is shown as text, whole', async () => {
  const [line] = await csv('lines');
  expect(line?.['what']).toBe(`'${TITLE}`);
  const [invoice] = await csv('invoices');
  expect(invoice?.['payer']).toBe(`'+Owner, "the" Elder\nand Son`);
});

it('the workbook says the same as the files, amounts as numbers, titles as text and never as formulas', async () => {
  const { status, headers, bytes } = await print(api, shop, `books.xlsx?${days}`, 'manager');
  expect(status).toBe(200);
  expect(headers.get('content-disposition')).toBe(
    'attachment; filename="books-2031-02-01-2031-03-31.xlsx"',
  );
  const book = xlsx.read(bytes, { cellFormula: true, cellDates: true });
  expect(book.SheetNames).toEqual(['invoices', 'lines', 'tax', 'payments']);
  for (const name of book.SheetNames) {
    const sheet = book.Sheets[name] as xlsx.WorkSheet;
    for (const [at, cell] of Object.entries(sheet))
      if (!at.startsWith('!')) expect((cell as xlsx.CellObject).f, `${name} ${at}`).toBeUndefined();
    const rows = xlsx.utils.sheet_to_json<Record<string, string | number | Date | null>>(sheet, {
      defval: null,
      UTC: true,
    });
    const file = await csv(name);
    expect(rows).toHaveLength(file.length);
    rows.forEach((row, index) => {
      for (const [column, value] of Object.entries(row)) {
        const written = (file[index]?.[column] ?? '').replace(/^'(?=[=+\-@])/, '');
        if (typeof value === 'number') expect(value, `${name} ${column}`).toBe(Number(written));
        else if (value instanceof Date) expect(value.toISOString().slice(0, 10)).toBe(written);
        else expect(value ?? '', `${name} ${column}`).toBe(written);
      }
    });
  }
  const lines = xlsx.utils.sheet_to_json<Record<string, unknown>>(
    book.Sheets['lines'] as xlsx.WorkSheet,
  );
  expect([lines[0]?.['what'], lines[0]?.['net']]).toEqual([TITLE, 1240]);
});

it('days are the shop’s: what was issued at half past eleven in the evening elsewhere is of the next day', async () => {
  expect(await csv('invoices', 'from=2031-01-01&until=2031-01-31')).toEqual([]);
  expect(await csv('invoices', 'from=2031-02-01&until=2031-02-01')).toHaveLength(1);
});

it('is for the front desk and the manager, between two days in order', async () => {
  for (const address of [`books/lines.csv?${days}`, `books.xlsx?${days}`]) {
    expect((await print(api, shop, address, 'mechanic')).status).toBe(403);
    expect((await fetch(`${api.origin}/paper/${address}`)).status).toBe(401);
  }
  for (const query of [
    '',
    '?from=2031-01-01',
    '?from=2031-02-30&until=2031-03-01',
    '?from=2031-03-02&until=2031-03-01',
    '?from=1900-01-01&until=2031-03-01',
    '?from=2031-01-01&from=2031-01-02&until=2031-03-01',
  ])
    for (const what of ['books/tax.csv', 'books.xlsx'])
      expect((await print(api, shop, `${what}${query}`, 'manager')).status, `${what}${query}`).toBe(
        400,
      );
  expect((await print(api, shop, `books/wages.csv?${days}`, 'manager')).status).toBe(404);
  const other = await makeShop(api);
  const theirs = await print(api, other, `books/invoices.csv?${days}`, 'manager');
  expect(theirs.bytes.toString().split('\r\n')).toHaveLength(2);
});

describe('a record of CSV', () => {
  it('reads back as what was written, whatever it holds', () => {
    const text = fc.oneof(
      fc.string({ unit: 'grapheme' }),
      fc.constantFrom('"', ',', '\r\n', '\n', "'", ' ', '=1+1', '\t=1', '@x', '-5', '＝1'),
    );
    fc.assert(
      fc.property(fc.array(text, { minLength: 2, maxLength: 6 }), (cells) => {
        const record = csvRecord(cells.map(textCell));
        const [read] = parse(record, {
          record_delimiter: '\r\n',
          relax_column_count: true,
        }) as string[][];
        expect(read).toHaveLength(cells.length);
        read?.forEach((cell, index) => {
          expect(cell === cells[index] || cell === `'${cells[index]}`).toBe(true);
          // The first character is what a spreadsheet looks at.
          expect(cell).not.toMatch(/^[=+\-@\t\r\n＝＋－＠]/);
        });
      }),
      { numRuns: 2000 },
    );
  });
  it('leaves our own numbers alone', () => {
    expect(csvRecord([numberCell('-12.00'), null, textCell(null), textCell('')])).toBe(
      '-12.00,,,\r\n',
    );
  });
});
