/**
 * Exemptions from tax: of a payer or an aircraft, for a category and a time, with a reason and a paper. What they free of
 * tax is category E with the reason in BT-120 (EN 16931-1, BR-E-01, BR-E-05, BR-E-08, BR-E-10, by `keepsTheRules`).
 */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { all, keepsTheRules, text, texts } from '../../support/e-invoice-rules.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { poppler, print, words } from '../paper/printed.ts';
import {
  draft as draftQuote,
  forOwner,
  gid,
  makeTasks,
  quoted,
  tasksOf,
} from '../quoting/quoting-shop.ts';
import { bill, draft, issueTo, makeSold, release } from './billing.ts';

let api: TestApi;
let now = new Date('2031-05-07T12:00:00Z');
beforeAll(async () => {
  api = await startApi({ now: () => now });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

// The smallest PDF that names its version and its end (ISO 32000-1, 7.5.2 and 7.5.5).
const pdf = Buffer.from('%PDF-1.7\n1 0 obj\n<<>>\nendobj\ntrailer\n<<>>\nstartxref\n0\n%%EOF\n');
const REASON = 'Public authority, certificate 12-B';

async function exempt(
  shop: TestShop,
  over: Record<string, string | string[]> = {},
  {
    bytes = pdf,
    role = 'front_desk',
  }: { bytes?: Buffer; role?: Parameters<TestShop['cookie']>[0] } = {},
) {
  const query = new URLSearchParams();
  const said = {
    ...(over['aircraft'] === undefined && { contact: gid('Contact', shop.contactId) }),
    ...{ category: 'parts', from: '2031-05-01', until: '2031-12-31' },
    ...{ reason: REASON, name: 'paper.pdf', ...over },
  };
  for (const [field, value] of Object.entries(said))
    for (const each of [value].flat()) query.append(field, each);
  const response = await fetch(`${api.origin}/exemptions?${query.toString()}`, {
    method: 'POST',
    headers: {
      cookie: await shop.cookie(role),
      'x-fairlead': '1',
      'content-type': 'application/octet-stream',
    },
    body: new Uint8Array(bytes),
  });
  const body = (await response.json()) as {
    id?: string;
    error?: { code: string; message: string; field?: string };
  };
  return { status: response.status, ...body };
}

const addressed = {
  ...{ addressLine1: 'Hangar 2', city: 'Ebbsay', country: 'US' },
  ...{ taxNumber: 'T-1', registrationNumber: 'R-1' },
};

/** An hour of work at 0 % and two parts at 7 % that nobody quoted, here and signed for. */
async function visited(over: Parameters<typeof makeShop>[1] = {}) {
  const shop = await makeShop(api, over);
  const visit = await makeSold(shop, {
    ...{ lines: [{ title: 'Work', likelyMinor: 9500n, taxRate: '4' }], ceiling: 100_000n },
    items: [{ title: 'Work', line: 0, seconds: 3600 }],
  });
  await issueTo(shop, visit.itemIds[0] ?? '', { unitPrice: '100', quantity: '2' });
  await release(shop, visit);
  return { shop, visit };
}

interface Taxed {
  endedExemptions: string[];
  eInvoiceLacks: string[];
  lines: { title: string; taxCode: string; taxRate: string; taxReason: string }[];
}
const taxed = async (shop: TestShop, id: string) => {
  const { data } = await shop.as<{ node: Taxed }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on Invoice { endedExemptions eInvoiceLacks lines { title taxCode taxRate taxReason } } } }',
    { id },
  );
  if (!data) throw new Error('no invoice');
  return data.node;
};
const end = async (shop: TestShop, exemptionId: string, reason: string) => {
  const { data } = await shop.as<{
    done: { code?: string; holds?: boolean; endedBecause?: string };
  }>(
    'front_desk',
    'mutation($input: EndExemptionInput!) { done: endExemption(input: $input) { ... on TaxExemption { holds endedBecause } ... on Refusal { code message field } } }',
    { input: { exemptionId, reason } },
  );
  return data?.done;
};

describe('an exemption', () => {
  it('is refused without a reason, a paper, days in order, or somebody whose it is', async () => {
    const shop = await makeShop(api);
    const wrong: [Record<string, string | string[]>, string][] = [
      [{ reason: ' ' }, 'reason has 0 characters: needed are 5 to 300.'],
      [{ until: '2031-04-30' }, 'from 2031-05-01 until 2031-04-30 was refused'],
      [{ from: '2031-02-30' }, 'from is "2031-02-30": needed is a day such as 2031-05-04.'],
      [{ until: '2051-01-01' }, 'at most ten years apart'],
      [{ category: 'fuel' }, 'category is "fuel": needed is one of labour, parts, supplies.'],
      [{ contact: '' }, 'was given for nobody'],
      [
        { aircraft: gid('Aircraft', shop.aircraftId), contact: gid('Contact', shop.contactId) },
        'at once',
      ],
      [{ reason: ['one', 'two'] }, 'reason is given more than once'],
      [{ name: '' }, 'name has 0 characters'],
    ];
    for (const [over, message] of wrong)
      expect(await exempt(shop, over)).toMatchObject({
        ...{ status: 400 },
        error: { code: 'BAD_INPUT', message: expect.stringContaining(message) },
      });
    for (const [bytes, message] of [
      [Buffer.alloc(0), 'The document is empty: needed is a PDF or a photo as JPEG.'],
      [Buffer.from('by word of mouth'), 'neither a PDF nor a JPEG'],
      [pdf.subarray(0, 20), 'has no end: it was cut short'],
    ] as const)
      expect(await exempt(shop, {}, { bytes })).toMatchObject({
        error: { code: 'BAD_INPUT', message: expect.stringContaining(message) },
      });
    expect(await exempt(shop, {}, { role: 'mechanic' })).toMatchObject({ status: 403 });
    const other = await makeShop(api);
    expect(await exempt(other, { contact: gid('Contact', shop.contactId) })).toMatchObject({
      status: 404,
    });
    expect(await shop.inside((tx) => tx.taxExemption.count())).toBe(0);
  });

  it('keeps its paper for the desk, and the same sent twice is one', async () => {
    const shop = await makeShop(api);
    const first = await exempt(shop);
    expect(first.status).toBe(201);
    expect((await exempt(shop)).id).toBe(first.id);
    const get = async (role: Parameters<TestShop['cookie']>[0]) =>
      fetch(`${api.origin}/exemptions/${first.id}`, {
        headers: { cookie: await shop.cookie(role) },
      });
    const paper = await get('manager');
    expect(paper.headers.get('content-type')).toBe('application/pdf');
    expect(Buffer.from(await paper.arrayBuffer()).equals(pdf)).toBe(true);
    expect((await get('mechanic')).status).toBe(403);
  });
});

describe('what it frees of tax', () => {
  it('is quoted and billed in category E with its reason, which goes onto the PDF and into BT-120', async () => {
    now = new Date('2031-05-07T12:00:00Z');
    const { shop, visit } = await visited(addressed);
    await shop.inside((tx) =>
      tx.contact.updateMany({ data: { addressLine1: 'Quay 1', city: 'Ebbsay', country: 'US' } }),
    );
    await exempt(shop);
    const part = await shop.inside((tx) => tx.part.findFirstOrThrow());
    const quote = quoted(
      await draftQuote(shop, {
        ...{ ...forOwner(shop), tasks: tasksOf(await makeTasks(shop, 1)) },
        parts: [{ partId: gid('Part', part.id), quantity: '3' }],
      }),
    );
    expect(quote.newest.tax).toBe('0');
    const { id } = await draft(shop, visit);
    const invoice = await bill(shop, 'issueInvoice', { invoiceId: id });
    // 95.00 at 4 %; the parts are free of tax.
    expect(invoice).toMatchObject({ net: '29500', tax: '380', gross: '29880' });
    expect((await taxed(shop, id)).lines).toEqual([
      { title: 'Work', taxCode: 'S', taxRate: '4', taxReason: '' },
      { title: 'Gasket', taxCode: 'E', taxRate: '0', taxReason: REASON },
    ]);
    const root = keepsTheRules((await print(api, shop, `invoice/${id}.xml`)).bytes.toString());
    const [exempted, ...more] = all(root, 'TaxTotal/TaxSubtotal').filter(
      (share) => text(share, 'TaxCategory/ID') === 'E',
    );
    if (!exempted) throw new Error('no breakdown of category E');
    expect(more).toEqual([]); // BR-E-01: exactly one breakdown of category E
    expect(text(exempted, 'TaxCategory/TaxExemptionReason')).toBe(REASON); // BR-E-10
    expect(text(exempted, 'TaxableAmount')).toBe('200.00'); // BR-E-08
    expect(text(exempted, 'TaxAmount')).toBe('0.00'); // BR-E-09
    expect(texts(root, 'InvoiceLine/Item/ClassifiedTaxCategory/ID')).toEqual(['S', 'E']);
    // Two reasons on one document are one text, since category E has one breakdown.
    const paper = await print(api, shop, `invoice/${id}.pdf`);
    expect(paper.status).toBe(200);
    if (poppler) expect(await words(paper.bytes)).toContain(`Exempt from tax, line 2: ${REASON}`);
  });

  it.each([
    ['the customer’s', REASON, undefined],
    ['the insurer’s', undefined, 'Insurer of the strand, certificate 4'],
    ['each their own', REASON, 'Insurer of the strand, certificate 4'],
    ['nobody’s', undefined, undefined],
  ])('of two payers, %s, frees nobody else', async (_, own, theirs) => {
    now = new Date('2031-05-07T12:00:00Z');
    const { shop, visit } = await visited(addressed);
    const at = { addressLine1: 'Quay 1', city: 'Ebbsay', country: 'US' };
    const insurer = await shop.inside((tx) =>
      tx.contact.create({ data: { shopId: shop.shopId, name: 'Shoal Mutual', ...at } }),
    );
    await shop.inside((tx) => tx.contact.updateMany({ data: at }));
    const insurerId = gid('Contact', insurer.id);
    if (own) await exempt(shop);
    if (theirs)
      expect((await exempt(shop, { contact: insurerId, reason: theirs })).status).toBe(201);
    const { data } = await shop.as<{ done: { id?: string; message?: string } }>(
      'front_desk',
      'mutation($input: AddPayerShareInput!) { done: addPayerShare(input: $input) { ... on PayerShare { id } ... on Refusal { message } } }',
      {
        input: {
          ...{ orderId: visit.order, contactId: insurerId, kind: 'insurer' },
          ...{ take: 'percent', percent: '40' },
        },
      },
    );
    expect(data?.done).toHaveProperty('id');
    await draft(shop, visit);
    const drafts = await shop.inside((tx) => tx.invoice.findMany({ include: { lines: true } }));
    expect(drafts).toHaveLength(2);
    // 95.00 of work at 4 %, 200.00 of parts at 7 % or exempt: 60 % and 40 % of each.
    const taxes = { own: 228n + (own ? 0n : 840n), theirs: 152n + (theirs ? 0n : 560n) };
    const together = drafts.reduce((sum, { grossMinor }) => sum + grossMinor, 0n);
    expect(together).toBe(29_500n + taxes.own + taxes.theirs);
    for (const { id, payerShareId, taxMinor } of drafts) {
      expect(taxMinor).toBe(payerShareId ? taxes.theirs : taxes.own);
      const invoiceId = gid('Invoice', id);
      await bill(shop, 'issueInvoice', { invoiceId });
      const root = keepsTheRules(
        (await print(api, shop, `invoice/${invoiceId}.xml`)).bytes.toString(),
      );
      const reason = payerShareId ? theirs : own;
      expect(texts(root, 'TaxTotal/TaxSubtotal/TaxCategory/TaxExemptionReason')).toEqual(
        reason ? [reason] : [],
      );
    }
  });

  it('is taxed again where the exemption is over by the day of the bill, and the desk is told', async () => {
    now = new Date('2031-05-07T12:00:00Z');
    const { shop, visit } = await visited();
    await exempt(shop, { until: '2031-05-31' });
    const first = await draft(shop, visit);
    expect((await taxed(shop, first.id)).lines[1]).toMatchObject({ taxCode: 'E' });
    now = new Date('2031-06-01T12:00:00Z');
    // What the draft says is not what it comes to any more.
    expect(await bill(shop, 'issueInvoice', { invoiceId: first.id })).toMatchObject({
      code: 'CONFLICT',
    });
    const again = await draft(shop, visit);
    const after = await taxed(shop, again.id);
    expect(after.lines[1]).toEqual({ title: 'Gasket', taxCode: 'S', taxRate: '7', taxReason: '' });
    expect(after.endedExemptions).toEqual([
      'The exemption of Test Owner from tax on parts ended on 2031-05-31. Tax is charged: ask for a new paper if it still holds.',
    ]);
    // One that follows it counts, and nothing is said any more.
    await exempt(shop, { from: '2031-06-01', until: '2031-06-30', reason: 'New certificate' });
    const third = await draft(shop, visit);
    expect(await taxed(shop, third.id)).toMatchObject({
      endedExemptions: [],
      lines: [{ taxCode: 'S' }, { taxCode: 'E', taxReason: 'New certificate' }],
    });
  });

  it('was quoted so and is taxed as today when it is ended; of an aircraft it holds for whoever pays', async () => {
    now = new Date('2031-05-07T12:00:00Z');
    const shop = await makeShop(api);
    const { id: exemptionId } = await exempt(shop, {
      ...{ aircraft: gid('Aircraft', shop.aircraftId), category: 'labour' },
    });
    const kept = gid('TaxExemption', '').length > 0 ? (exemptionId ?? '') : '';
    const row = await shop.inside((tx) => tx.taxExemption.findFirstOrThrow());
    const visit = await makeSold(shop, {
      lines: [
        {
          ...{ title: 'Work', likelyMinor: 9500n, taxRate: '0', taxCode: 'E' },
          ...{ exemptionId: row.id, taxReason: REASON },
        },
      ],
      ...{ ceiling: 100_000n, items: [{ title: 'Work', line: 0, seconds: 3600 }] },
    });
    const first = await draft(shop, visit);
    expect((await taxed(shop, first.id)).lines[0]).toMatchObject({
      taxCode: 'E',
      taxReason: REASON,
    });
    expect(await end(shop, kept, '')).toMatchObject({ code: 'BAD_INPUT' });
    expect(await end(shop, kept, 'Sold abroad')).toEqual({
      holds: false,
      endedBecause: 'Sold abroad',
    });
    expect(await end(shop, kept, 'Something else')).toEqual({
      holds: false,
      endedBecause: 'Sold abroad',
    });
    const again = await taxed(shop, (await draft(shop, visit)).id);
    expect(again.lines[0]).toEqual({ title: 'Work', taxCode: 'S', taxRate: '0', taxReason: '' });
    expect(again.endedExemptions[0]).toMatch(
      /was ended on 2031-05-07: Sold abroad\. Tax is charged\./,
    );
  });
});
