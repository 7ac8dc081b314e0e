/**
 * What 14 CFR 43.9 and 43.11 require in a maintenance-record entry, item by item, through the API: each thing is
 * left out in turn, and signing is refused with the paragraph that asks for it.
 *
 * Source: eCFR, title 14, part 43, §§ 43.5, 43.9(a)(1)–(4), 43.11(a)(1)–(5) and (b), text as of September 2026.
 */
import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../support/api.ts';
import { makeShop, type TestShop } from '../support/shop.ts';
import {
  type EntryAsked,
  entryDraft,
  makeVisit,
  signEntry,
  type Visit,
  type VisitShape,
} from '../support/visit.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const asked = (shop: TestShop, { order }: Visit, over: Partial<EntryAsked> = {}): EntryAsked => ({
  orderId: order,
  bookId: globalId('RecordBook', shop.bookId),
  outcome: 'airworthy',
  ...over,
});

const unairworthy = {
  title: 'Collector cracked',
  class: 'unairworthy',
  words: '34 mm beside the weld',
} as const;

interface Without {
  paragraph: string;
  asks: string;
  visit: VisitShape;
  entry?: Partial<EntryAsked>;
  /** Changes the shop before anybody signs. */
  prepare?: (shop: TestShop) => Promise<unknown>;
}

const maintenance: Without[] = [
  {
    paragraph: '43.9(a)(1)',
    asks: 'a description of the work or a reference to data',
    visit: { inspection: null, items: [{ workDone: ' ', reference: '' }] },
  },
  {
    paragraph: '43.9(a)(2)',
    asks: 'the date of completion',
    visit: { inspection: null, items: [{ workDone: null }] },
  },
  {
    paragraph: '43.9(a)(3)',
    asks: 'the name of the person who did the work',
    visit: { inspection: null, items: [{ workDone: null }] },
  },
  {
    paragraph: '43.9(a)(4)',
    asks: 'signature, certificate number and kind of certificate',
    visit: { inspection: null },
    prepare: (shop) =>
      shop.inside((tx) =>
        tx.certificate.updateMany({ data: { validUntil: new Date('2026-01-01') } }),
      ),
  },
];

const inspections: Without[] = [
  {
    paragraph: '43.11(a)(1)',
    asks: 'the type and a brief description of the extent',
    visit: {},
    entry: { extent: ' ' },
  },
  {
    paragraph: '43.11(a)(2)',
    asks: 'the date of the inspection',
    visit: { items: [{ workDone: null }] },
  },
  { paragraph: '43.11(a)(2)', asks: 'total time in service', visit: { tisHundredths: null } },
  {
    paragraph: '43.11(a)(3)',
    asks: 'signature, certificate number and kind of certificate',
    visit: {},
    prepare: (shop) =>
      shop.inside((tx) =>
        tx.certificate.updateMany({ data: { validUntil: new Date('2026-01-01') } }),
      ),
  },
  {
    paragraph: '43.11(a)(4)',
    asks: 'the statement that it was found airworthy',
    visit: {},
    entry: { outcome: null },
  },
  {
    paragraph: '43.11(a)(5)',
    asks: 'the list that the statement speaks of',
    visit: {},
    entry: { outcome: 'not_airworthy_list_given' },
  },
  {
    paragraph: '43.11(b)',
    asks: 'the owner or lessee who is given the signed and dated list',
    visit: { findings: [unairworthy] },
    entry: { outcome: 'not_airworthy_list_given' },
    prepare: (shop) =>
      shop.inside((tx) =>
        tx.aircraftContact.updateMany({ data: { until: new Date('2026-01-01') } }),
      ),
  },
];

describe.each([
  ['14 CFR 43.9(a), maintenance', maintenance],
  ['14 CFR 43.11, inspections', inspections],
] as const)('%s', (_, cases) => {
  it.each(cases)(
    '$paragraph: without $asks nothing is signed',
    async ({ paragraph, visit: shape, entry, prepare }) => {
      const shop = await makeShop(api);
      const visit = await makeVisit(shop, shape);
      await prepare?.(shop);
      const draft = await entryDraft(shop, asked(shop, visit, entry));
      expect(draft.missing.map((one) => one.paragraph)).toContain(`14 CFR ${paragraph}`);
      expect(draft.missing.every(({ what, remedy }) => what !== '' && remedy !== '')).toBe(true);
      expect(draft.text).toBeNull();
      const refused = await signEntry(shop, asked(shop, visit, entry));
      expect(refused.code).toBe('AGAINST_RULE');
      expect(refused.message).toContain(`14 CFR ${paragraph}`);
      expect(await shop.inside((tx) => tx.recordEntry.count())).toBe(0);
    },
  );
});

it('with everything there an entry holds each thing that 43.9(a) and 43.11(a)(1) to (4) ask for', async () => {
  const shop = await makeShop(api);
  const visit = await makeVisit(shop, {
    items: [{ title: 'Cabin, seats and belts', workDone: 'Inspected; left lap belt replaced' }],
  });
  const signed = await signEntry(shop, asked(shop, visit));
  const text = signed.text ?? '';
  const required: [paragraph: string, words: RegExp][] = [
    ['43.9(a)(1)', /left lap belt replaced/],
    ['43.9(a)(1), reference to data', /Test manual, chapter 5/],
    ['43.9(a)(2), 43.11(a)(2)', /2026-03-14/],
    ['43.9(a)(3)', /Test mechanic/],
    [
      '43.9(a)(4), 43.11(a)(3)',
      /Signed: Test inspector, mechanic certificate with airframe rating, number T-1001/,
    ],
    ['43.11(a)(1)', /100-hour inspection\. Extent: the whole aircraft/],
    ['43.11(a)(2), total time in service', /2463\.00 h/],
    ['43.11(a)(4)', /found it to be in an airworthy condition/],
  ];
  for (const [paragraph, words] of required) expect(text, paragraph).toMatch(words);
});

it('43.11(a)(5) and (b): not airworthy, the entry says so, and the signed and dated list names who got it and what is on it', async () => {
  const shop = await makeShop(api);
  const visit = await makeVisit(shop, {
    findings: [
      unairworthy,
      { title: 'Belt dust', class: 'observation' },
      { title: 'Hose chafed', class: 'discrepancy' },
    ],
  });
  const signed = await signEntry(shop, asked(shop, visit, { outcome: 'not_airworthy_list_given' }));
  const today = new Date().toISOString().slice(0, 10);
  expect(signed.text).toMatch(/not approved for return to service/);
  expect(signed.text).toContain(`list, dated ${today}`);
  expect(signed.text).toContain('Given to Test Owner');
  const listed = await shop.inside((tx) =>
    tx.entryDiscrepancy.findMany({ orderBy: { finding: { number: 'asc' } } }),
  );
  expect(listed.map((row) => row.class)).toEqual(['unairworthy', 'discrepancy']);
  expect(listed[0]?.words).toContain('34 mm beside the weld');
});
