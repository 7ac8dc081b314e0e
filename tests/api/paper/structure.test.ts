import { globalId } from '@fairlead/api/ids';
import { DrawingSheet } from '@fairlead/api/paper/sheet';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import {
  draftedQuote,
  issuedInvoice,
  plannedItem,
  purchaseDrafted,
  signedEntry,
} from './full-shop.ts';
import { print } from './printed.ts';
import { complaintsAbout } from './structure.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

it('every paper is tagged whole, in reading order, with its words for pictures and its letters to be read back', async () => {
  const [quote, cards, entry, listed, billed, bought] = [
    await draftedQuote(api),
    await plannedItem(api),
    await signedEntry(api),
    await signedEntry(api, { listed: true }),
    await issuedInvoice(api, { lines: 40, title: 'Žižek’s Ωμέγα and Жанна’s relay, position' }),
    await purchaseDrafted(api, { lines: 60 }),
  ];
  const deposit = await billed.shop.inside(async (tx) => {
    const order = await tx.workOrder.findFirstOrThrow();
    const { id: contactId } = await tx.contact.findFirstOrThrow();
    return tx.deposit.create({
      data: {
        ...{ orderId: order.id, contactId, currency: 'USD', amountMinor: 5000n },
        ...{ method: 'card', paidAt: new Date('2026-03-01T09:00:00Z') },
      },
    });
  });
  for (const [shop, address] of [
    [quote.shop, `quote/${quote.quote.id}.pdf`],
    [cards.shop, `job-card/${cards.order}.pdf?paper=letter`],
    [entry.shop, `entry/${entry.id}.pdf`],
    [entry.shop, `entry/${entry.id}.pdf?paper=sheet`],
    [listed.shop, `discrepancies/${listed.id}.pdf`],
    [billed.shop, `invoice/${billed.invoice.id}.pdf`],
    [billed.shop, `receipt/${globalId('Deposit', deposit.id)}.pdf`],
    [billed.shop, `statement/${globalId('Contact', deposit.contactId)}.pdf?from=2020-01-01`],
    [bought.shop, `purchase-order/${bought.id}.pdf`],
  ] as const) {
    const { status, bytes } = await print(api, shop, address);
    expect(status).toBe(200);
    expect(await complaintsAbout(bytes), address).toEqual([]);
  }
});

const sheetOf = (draw: (sheet: DrawingSheet) => void) => {
  const sheet = new DrawingSheet({
    paper: 'a4',
    title: 'A sample',
    at: new Date('2026-03-14T09:00:00Z'),
    block: {
      what: 'A sample',
      rows: [[{ label: 'Aircraft', value: 'QQ-117' }]],
      shop: { name: 'Test Shop', place: 'Nowhere Strand' },
      printed: 'Printed',
    },
  });
  draw(sheet);
  return sheet.finish();
};
const title = (sheet: DrawingSheet) => sheet.text('A sample', { tag: 'H1' });

it('the look itself finds what is wrong', async () => {
  const rule = { lineBreak: false };
  const samples: [RegExp, (sheet: DrawingSheet) => void][] = [
    [/^01-005/, (sheet) => (title(sheet), sheet.doc.text('Loose', 50, 300, rule))],
    [
      /an end too many/,
      (sheet) => (title(sheet), sheet.tag(sheet.root, 'P', () => sheet.hairline(300))),
    ],
    [/^14-002/, (sheet) => sheet.text('Too deep', { tag: 'H2' })],
    [/^13-004/, (sheet) => (title(sheet), sheet.tag(sheet.root, 'Figure', () => {}))],
    [/^09-004/, (sheet) => (title(sheet), sheet.tag(sheet.root, 'TR', () => {}))],
    [
      /^15-003/,
      (sheet) => {
        title(sheet);
        const row = sheet.open(sheet.open(sheet.root, 'Table'), 'TR');
        sheet.tag(row, 'TH', () => sheet.write('Head', 300));
      },
    ],
  ];
  for (const [complaint, draw] of samples)
    expect(await complaintsAbout(await sheetOf(draw))).toContainEqual(
      expect.stringMatching(complaint),
    );
  const sound = await sheetOf(title);
  expect(await complaintsAbout(sound)).toEqual([]);
  for (const [part, complaint] of [
    ['/DisplayDocTitle', /^07-001/],
    ['/Lang', /^11-006/],
    ['/Marked', /^not marked/],
    ['/ToUnicode', /^31-027/],
    ['/FontFile2', /^31-009/],
    ['/ParentTree ', /^ParentTree/],
    ['<pdfuaid:part>', /^06-002/],
    ['/StructTreeRoot ', /^01: no structure/],
  ] as const) {
    const spoilt = sound.toString('latin1').replaceAll(part, part.replace(/[a-z](?=.?$)/, 'Q'));
    expect(spoilt).not.toBe(sound.toString('latin1'));
    expect(await complaintsAbout(Buffer.from(spoilt, 'latin1')), part).toContainEqual(
      expect.stringMatching(complaint),
    );
  }
});
