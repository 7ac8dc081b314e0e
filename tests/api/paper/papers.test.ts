import { execFileSync } from 'node:child_process';
import { globalId } from '@fairlead/api/ids';
import jsQR from 'jsqr';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { calendarDateText } from '../../../apps/web/lib/figures/dates.ts';
import { moneyText, roundMoneyText } from '../../../apps/web/lib/figures/money.ts';
import { differenceText, quantityText } from '../../../apps/web/lib/figures/quantity.ts';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop } from '../../support/shop.ts';
import { bill } from '../books/billing.ts';
import {
  draftedQuote,
  issuedInvoice,
  plannedItem,
  purchaseDrafted,
  signedEntry,
} from './full-shop.ts';
import { info, pageSizes, picture, poppler, print, words } from './printed.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

if (!poppler) console.info('pdftotext is not installed: what the papers say is not read here.');
const read = it.skipIf(!poppler);

/** One address of each kind, with the shop that it belongs to. */
async function oneOfEach() {
  const [
    { shop: s1, quote },
    { shop: s2, item, order },
    { shop: s3, id: entry },
    listed,
    billed,
    bought,
  ] = await Promise.all([
    draftedQuote(api),
    plannedItem(api),
    signedEntry(api),
    signedEntry(api, { listed: true }),
    issuedInvoice(api),
    purchaseDrafted(api, { lines: 1 }),
  ]);
  return [
    { shop: s1, kind: 'quote', id: quote.id },
    { shop: s2, kind: 'job-card', id: item },
    { shop: s2, kind: 'job-card', id: order },
    { shop: s3, kind: 'entry', id: entry },
    { shop: listed.shop, kind: 'discrepancies', id: listed.id },
    { shop: billed.shop, kind: 'invoice', id: billed.invoice.id },
    { shop: bought.shop, kind: 'purchase-order', id: bought.id },
  ];
}

describe('every kind of paper', () => {
  let papers: Awaited<ReturnType<typeof oneOfEach>>;
  beforeAll(async () => {
    papers = await oneOfEach();
  });

  it('answers a PDF that is shown and not kept, under a name that says what it is', async () => {
    for (const { shop, kind, id } of papers) {
      const { status, headers, bytes } = await print(api, shop, `${kind}/${id}.pdf`);
      expect([kind, status]).toEqual([kind, 200]);
      expect(headers.get('content-type')).toBe('application/pdf');
      expect(headers.get('cache-control')).toBe('no-store');
      expect(headers.get('content-disposition')).toMatch(/^inline; filename="[A-Za-z0-9-]+\.pdf"$/);
      expect(bytes.subarray(0, 5).toString()).toBe('%PDF-');
    }
  });

  // ISO 216:2007, table 1: A4 is 210 mm × 297 mm, ±2 mm at that size. ANSI/ASME Y14.1: size A is 8.5 in × 11 in.
  it.each([
    ['', 210, 297],
    ['?paper=a4', 210, 297],
    ['?paper=letter', 8.5 * 25.4, 11 * 25.4],
  ])('is of the size asked for, on every page: "%s"', async (query, width, height) => {
    for (const { shop, kind, id } of papers) {
      const { bytes } = await print(api, shop, `${kind}/${id}.pdf${query}`);
      const sizes = pageSizes(bytes);
      expect(sizes.length).toBeGreaterThan(0);
      for (const [wide, high] of sizes) {
        expect(Math.abs(wide - width)).toBeLessThan(0.01);
        expect(Math.abs(high - height)).toBeLessThan(0.01);
      }
    }
  });

  // ISO 14289-1:2014 (PDF/UA-1), 7.1 and 7.2: tagged, a title that the window shows, a language.
  it('is tagged, and has a language and a title that the window shows', async () => {
    for (const { shop, kind, id } of papers) {
      const file = (await print(api, shop, `${kind}/${id}.pdf`)).bytes.toString('latin1');
      expect(file).toMatch(/\/StructTreeRoot \d+ 0 R/);
      expect(file).toMatch(/\/Marked true/);
      expect(file).toMatch(/\/Lang \(en\)/);
      expect(file).toMatch(/\/DisplayDocTitle true/);
      expect(file).toContain('<pdfuaid:part>1</pdfuaid:part>');
      expect(file).toMatch(/<dc:title>\s*<rdf:Alt>\s*<rdf:li xml:lang="x-default">\S/);
    }
  });

  read('embeds B612 and nothing else, and says its page', async () => {
    for (const { shop, kind, id } of papers) {
      const { bytes } = await print(api, shop, `${kind}/${id}.pdf`);
      expect(await info(bytes)).toMatch(/Tagged:\s+yes/);
      const structure = await info(bytes, '-struct-text');
      expect(structure).toMatch(/^Document\n[^]*^ {2}H1 \(block\)/m);
      const pages = pageSizes(bytes).length;
      expect(await words(bytes)).toContain(`1 of ${pages}`);
      const fonts = bytes.toString('latin1').match(/\/FontName \/[^\s/]+/g) ?? [];
      expect(fonts.length).toBeGreaterThan(0);
      for (const font of fonts) expect(font).toMatch(/\+B612/);
    }
  });

  it('is refused to somebody not signed in, for another shop’s thing and for an id of another kind', async () => {
    const other = await makeShop(api);
    for (const { shop, kind, id } of papers) {
      const address = `${kind}/${id}.pdf`;
      expect(await print(api, shop, address, null)).toMatchObject({
        status: 401,
        error: { code: 'SIGN_IN_NEEDED' },
      });
      expect(await print(api, other, address)).toMatchObject({
        status: 404,
        error: { code: 'NOT_FOUND' },
      });
      const wrong = globalId('Aircraft', shop.aircraftId);
      expect(await print(api, shop, `${kind}/${wrong}.pdf`)).toMatchObject({
        status: 400,
        error: { code: 'BAD_INPUT', message: expect.stringContaining('needed is the id of a') },
      });
      expect(await print(api, shop, `${kind}/nonsense.pdf`)).toMatchObject({ status: 400 });
    }
  });

  it('is refused on paper that there is not, and under a name that there is not', async () => {
    const [first] = papers;
    if (!first) throw new Error('no paper');
    const { shop, kind, id } = first;
    expect(await print(api, shop, `${kind}/${id}.pdf?paper=b5`)).toMatchObject({
      status: 400,
      error: { message: 'paper is "b5": this can be printed on a4 or letter.' },
    });
    expect(await print(api, shop, `${kind}/${id}.pdf?paper=sheet`)).toMatchObject({ status: 400 });
    expect(await print(api, shop, `${kind}/${id}.pdf?paper=a4&paper=letter`)).toMatchObject({
      status: 400,
    });
    expect(await print(api, shop, `poster/${id}.pdf`)).toMatchObject({
      status: 404,
      error: { message: expect.stringContaining('there are quote, job-card') },
    });
  });
});

read('a quote says the figures of its page, to the cent and the tenth', async () => {
  const { shop, quote } = await draftedQuote(api);
  const said = await words((await print(api, shop, `quote/${quote.id}.pdf`)).bytes);
  const { newest } = quote;
  const { currency, likely, p80, high, tax, hours, lines } = newest;
  for (const figure of [
    `${roundMoneyText(BigInt(likely), currency)} USD`,
    roundMoneyText(BigInt(p80), currency),
    roundMoneyText(BigInt(high), currency),
    moneyText(BigInt(tax), currency),
    moneyText(BigInt(likely) + BigInt(tax), currency),
    `${quantityText(hours.p50, 'h')} h`,
    differenceText(hours.p50, hours.p90, 'h'),
    differenceText(hours.p50, hours.p10, 'h'),
    `Holds until ${calendarDateText(newest.expiresOn)}`.slice('Holds until '.length),
    'Payable within 14 days',
    'stays responsible for having the aircraft inspected',
  ])
    expect(said).toContain(figure);
  expect(lines).toHaveLength(3);
  for (const line of lines) {
    expect(said).toContain(line.title);
    if (line.hours) {
      expect(said).toContain(`${quantityText(line.hours.p50, 'h')} h`);
      expect(said).toContain(differenceText(line.hours.p50, line.hours.p90, 'h'));
      expect(said).toContain(
        `${quantityText(line.hours.p10, 'h')} to ${quantityText(line.hours.p90, 'h')}`,
      );
      expect(said).toContain(roundMoneyText(BigInt(line.likely), currency));
    } else expect(said).toContain(moneyText(BigInt(line.likely), currency));
  }
});

read('a job card leads to its item by a code that another program reads', async () => {
  const { shop, item, order, title } = await plannedItem(api);
  const { bytes } = await print(api, shop, `job-card/${item}.pdf`);
  const { data, info: size } = await sharp(await picture(bytes))
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const code = jsQR(new Uint8ClampedArray(data), size.width, size.height);
  expect(code?.data).toBe(`http://shop.test/bench?item=${encodeURIComponent(item)}`);
  const said = await words(bytes);
  for (const text of [
    title,
    '6520',
    'Maintenance manual, chapter 65-20, revision in force',
    'Ignition off, key out',
    'Rotor arc: keep it clear',
    '60 mm of room',
    'by mirror or borescope',
    '4 locked fasteners',
    'the second independent of the first',
    'Line by line, initialled by who did it',
    '1 Couplings: cracks, bolts, slippage marks',
    '2 Damper set by the manual',
    'SECOND LOOK',
  ])
    expect(said).toContain(text);
  const all = await print(api, shop, `job-card/${order}.pdf`);
  expect(pageSizes(all.bytes)).toHaveLength(3);
});

read(
  'an entry is printed word for word as it was signed, with stamp and hash, also on a sheet that sticks',
  async () => {
    const { shop, id, text } = await signedEntry(api);
    const { data } = await shop.as<{ node: { chainHash: string } }>(
      'inspector',
      'query($id: ID!) { node(id: $id) { ... on RecordEntry { chainHash } } }',
      { id },
    );
    const hash = data?.node.chainHash ?? 'none';
    for (const query of ['', '?paper=sheet']) {
      const { bytes } = await print(api, shop, `entry/${id}.pdf${query}`);
      const said = await words(bytes);
      for (const line of text.split('\n').filter(Boolean)) expect(said).toContain(line);
      expect(said.replaceAll(' ', '')).toContain(hash);
      expect(said).toContain('MECHANIC, AIRFRAME RATING');
      expect(said).toContain('No. T-1001');
    }
    const [[wide = 0, high = 0] = []] = pageSizes(
      (await print(api, shop, `entry/${id}.pdf?paper=sheet`)).bytes,
    );
    expect([Math.round(wide), Math.round(high)]).toEqual([100, 150]);
  },
);

read('the list of 14 CFR 43.11(b) has everything on it, what is unairworthy first', async () => {
  const { shop, id } = await signedEntry(api, { listed: true });
  const said = await words((await print(api, shop, `discrepancies/${id}.pdf`)).bytes);
  const order = [
    '1. unairworthy',
    'Crack in the upper frame',
    '2. discrepancy',
    'Play in the tail rotor',
  ];
  const at = order.map((text) => said.indexOf(text));
  expect(at.every((place) => place >= 0)).toBe(true);
  expect(at).toEqual([...at].sort((a, b) => a - b));
  expect(said).toContain('Received by Test Owner');
  expect(said).toContain('An item listed as unairworthy stays so until it is corrected');
  const { shop: own, id: clean } = await signedEntry(api);
  expect(await print(api, own, `discrepancies/${clean}.pdf`)).toMatchObject({
    status: 404,
    error: { message: expect.stringContaining('has no list of discrepancies') },
  });
});

read(
  'an invoice says the figures of its page to the cent, why it differs, and what was found',
  async () => {
    const { shop, invoice } = await issuedInvoice(api);
    const { bytes } = await print(api, shop, `invoice/${invoice.id}.pdf`);
    const said = await words(bytes);
    const money = (amount: string | bigint) => moneyText(BigInt(amount), 'USD');
    for (const figure of [
      money(invoice.net),
      money(invoice.gross),
      money(invoice.owed),
      money(invoice.agreed),
      money(invoice.quoted ?? '0'),
    ])
      expect(said).toContain(figure);
    for (const { title, net, quantity } of invoice.lines) {
      expect(said).toContain(title);
      expect(said).toContain(money(net));
      expect(said).toContain(`${quantity} h`);
    }
    expect(invoice.difference).toHaveLength(3);
    for (const { title, amount } of invoice.difference) {
      expect(said).toContain(title);
      expect(said).toContain(money(amount));
    }
    expect(said.replaceAll(' ', '')).toContain(invoice.chainHash);
    expect(said).toContain('Exhaust gas can reach the cabin');
    const file = bytes.toString('latin1');
    for (const words of ['crack 1.1 beside the weld', 'crack 1.2 beside the weld'])
      expect(file).toContain(`/Alt (Collector seen from below, ${words})`);
    const credit = await bill(shop, 'creditInvoice', { invoiceId: invoice.id });
    const taken = await words((await print(api, shop, `invoice/${credit.id}.pdf`)).bytes);
    expect(taken).toContain(`Takes back invoice ${invoice.number}`);
    expect(taken).toContain(money(credit.gross));
  },
);

it('an invoice of 60 lines and 12 photos is printed whole, in a number of statements that does not grow', async () => {
  const { shop, invoice } = await issuedInvoice(api, { lines: 60, findings: 4, each: 3 });
  const small = await issuedInvoice(api);
  let bytes: Buffer = Buffer.alloc(0);
  await shop.cookie('front_desk');
  await small.shop.cookie('front_desk');
  const many = await api.statementsOf(async () => {
    ({ bytes } = await print(api, shop, `invoice/${invoice.id}.pdf`));
  });
  const few = await api.statementsOf(() =>
    print(api, small.shop, `invoice/${small.invoice.id}.pdf`),
  );
  expect(many.length).toBe(few.length);
  const file = bytes.toString('latin1');
  expect(file.match(/\/S \/Figure/g)).toHaveLength(12);
  expect(file.match(/\/Subtype \/Image/g)).toHaveLength(12);
  if (!poppler) return;
  const said = await words(bytes);
  for (const { title, net } of invoice.lines) {
    expect(said).toContain(title);
    expect(said).toContain(moneyText(BigInt(net), 'USD'));
  }
  const pages = pageSizes(bytes).length;
  for (let page = 1; page <= pages; page += 1) expect(said).toContain(`${page} of ${pages}`);
});

it('says so where the file of a photo is missing, and prints the rest', async () => {
  const { shop, invoice } = await issuedInvoice(api, { each: 1 });
  execFileSync('rm', ['-r', `${api.uploadsDir}/${shop.shopId}`]);
  const { status, bytes } = await print(api, shop, `invoice/${invoice.id}.pdf`);
  expect(status).toBe(200);
  if (poppler) expect(await words(bytes)).toContain('The file of this photo is missing.');
});
