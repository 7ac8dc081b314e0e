import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import {
  type EntryAsked,
  entryDraft,
  makeVisit,
  signEntry,
  type Visit,
  type VisitShape,
} from '../../support/visit.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

async function visitOf(shape: VisitShape = {}) {
  const shop = await makeShop(api);
  const visit = await makeVisit(shop, shape);
  const asked = (over: Partial<EntryAsked> = {}): EntryAsked => ({
    orderId: visit.order,
    bookId: globalId('RecordBook', shop.bookId),
    outcome: 'airworthy',
    ...over,
  });
  return { shop, visit, asked };
}
const countEntries = (shop: TestShop) => shop.inside((tx) => tx.recordEntry.count());

it('signs what was read, once, with its items, and chains it', async () => {
  const { shop, visit, asked } = await visitOf({
    items: [{}, { title: 'Exhaust collector', jasc: '7810', seconds: 3600 }],
  });
  const draft = await entryDraft(shop, asked());
  expect(draft).toMatchObject({
    rule: 'inspection',
    mayApprove: true,
    missing: [],
    completedOn: '2026-03-14',
  });
  const first = await signEntry(shop, asked(), { text: draft.text ?? '' });
  const second = await signEntry(shop, asked(), { text: draft.text ?? '' });
  expect(second.id).toBe(first.id);
  expect(await countEntries(shop)).toBe(1);
  expect(await shop.inside((tx) => tx.entryItem.count())).toBe(2);
  const { data } = await shop.as<{
    node: { chainHash: string; certificateNumber: string; cautions: string[] };
  }>(
    'manager',
    'query($id: ID!) { node(id: $id) { ... on RecordEntry { chainHash certificateNumber cautions } } }',
    { id: first.id },
  );
  expect(data?.node.chainHash).toMatch(/^[0-9a-f]{64}$/);
  expect(data?.node.certificateNumber).toBe('T-1001');
  expect(data?.node.cautions.length).toBeGreaterThan(0);
  const again = await signEntry(shop, asked(), { text: 'another text' });
  expect(again).toMatchObject({
    code: 'CONFLICT',
    message: expect.stringMatching(/signed by Test inspector/),
  });
  void visit;
});

it('signs once when the same signature arrives twice at the same moment', async () => {
  const { shop, asked } = await visitOf();
  const { text } = await entryDraft(shop, asked());
  const both = await Promise.all(
    [1, 2, 3].map(() => signEntry(shop, asked(), { text: text ?? '' })),
  );
  expect(new Set(both.map(({ id }) => id)).size).toBe(1);
  expect(await countEntries(shop)).toBe(1);
});

it.each<[what: string, shape: VisitShape, sentence: RegExp]>([
  ['an open item', { items: [{}, { workDone: null }] }, /an end to the item still open: 2 Item 2/],
  [
    'an item without initials',
    { items: [{}, { initialled: false }] },
    /initials on the item: 2 Item 2/,
  ],
  [
    'a critical item that one person looked at',
    { items: [{ critical: true }] },
    /second, independent look at the critical item: 1 Item 1/,
  ],
  [
    'a finding nobody assessed',
    { findings: [{ title: 'Streak', class: 'observation', assessed: false }] },
    /an assessment of the finding: Streak/,
  ],
  [
    'something unairworthy that is not corrected',
    { findings: [{ title: 'Crack', class: 'unairworthy' }] },
    /correction of what was found unairworthy: Crack/,
  ],
  ['no meter read', { tisHundredths: null }, /total time in service \(14 CFR 43\.11\(a\)\(2\)\)/],
])('is refused with %s, and changes nothing', async (_, shape, sentence) => {
  const { shop, asked } = await visitOf(shape);
  const refused = await signEntry(shop, asked());
  expect(refused).toMatchObject({ code: 'AGAINST_RULE', message: expect.stringMatching(sentence) });
  expect(await countEntries(shop)).toBe(0);
});

it('says how many more things are missing', async () => {
  const { shop, asked } = await visitOf({
    items: [{}, { workDone: null }, { workDone: null }],
    tisHundredths: null,
  });
  expect((await signEntry(shop, asked())).message).toMatch(/2 more things are missing: shop rule/);
});

it('a critical item that two people looked at is signed for', async () => {
  const { shop, asked } = await visitOf({ items: [{ critical: true, second: true }] });
  expect((await signEntry(shop, asked())).id).toBeDefined();
});

it('is refused while a clock runs, with another name, and when the work changed since it was read', async () => {
  const { shop, visit, asked } = await visitOf();
  const { text } = await entryDraft(shop, asked());
  expect(
    await signEntry(shop, asked(), { text: text ?? '', signature: 'Test Inspector' }),
  ).toMatchObject({
    code: 'BAD_INPUT',
    message: expect.stringContaining('needed is your own name, Test inspector'),
  });
  await shop.inside((tx) =>
    tx.itemEvent.create({
      data: { itemId: visit.itemIds[0] ?? '', kind: 'reopened', byId: shop.people.inspector.id },
    }),
  );
  await shop.inside((tx) =>
    tx.itemEvent.create({
      data: {
        itemId: visit.itemIds[0] ?? '',
        kind: 'done',
        workDone: 'Something else',
        byId: shop.people.mechanic.id,
      },
    }),
  );
  await shop.inside((tx) =>
    tx.itemEvent.create({
      data: { itemId: visit.itemIds[0] ?? '', kind: 'initialled', byId: shop.people.inspector.id },
    }),
  );
  expect(await signEntry(shop, asked(), { text: text ?? '' })).toMatchObject({
    code: 'CONFLICT',
    message: 'The entry changed since you read it: read it again before you sign.',
  });
  await shop.inside((tx) =>
    tx.stretch.create({
      data: {
        personId: shop.people.mechanic.id,
        itemId: visit.itemIds[0] ?? '',
        startedAt: new Date('2026-03-15T08:00:00Z'),
      },
    }),
  );
  expect((await signEntry(shop, asked())).message).toMatch(/an end to the clock of Test mechanic/);
  expect(await countEntries(shop)).toBe(0);
});

it('is for an inspector whose certificate covers the work on that day', async () => {
  const { shop, asked } = await visitOf({ items: [{ jasc: '7810' }] });
  for (const role of ['mechanic', 'front_desk', 'manager'] as const)
    expect((await signEntry(shop, asked(), { role, text: 'x' })).code).toBe('FORBIDDEN');
  await shop.inside((tx) =>
    tx.certificate.updateMany({
      where: { kind: 'mechanic_powerplant' },
      data: { validUntil: new Date('2026-01-31') },
    }),
  );
  const draft = await entryDraft(shop, asked());
  expect(draft.mayApprove).toBe(false);
  expect((await signEntry(shop, asked())).message).toMatch(
    /14 CFR 65\.87 .*good through 2026-01-31/,
  );
});

it('an annual needs an inspection authorization', async () => {
  const { shop, asked } = await visitOf({ inspection: 'annual' });
  expect((await signEntry(shop, asked())).text).toMatch(
    /as an annual inspection requires[\s\S]*holder|inspection authorization/,
  );
  const other = await visitOf({ inspection: 'annual' });
  await other.shop.inside((tx) =>
    tx.certificate.updateMany({
      where: { kind: 'inspection_authorization' },
      data: { validUntil: new Date('2025-03-31') },
    }),
  );
  expect((await signEntry(other.shop, other.asked())).message).toMatch(
    /65\.95.*good through 2025-03-31/,
  );
});

it('a list goes with an inspection only', async () => {
  const { shop, asked } = await visitOf({ inspection: null });
  expect(await signEntry(shop, asked({ outcome: 'not_airworthy_list_given' }))).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringContaining('43.11(b)'),
  });
  expect((await signEntry(shop, asked({ outcome: null }))).text).toMatch(
    /approves return to service for this work/,
  );
});

it('a mistake is corrected with a new entry that names the old one; the old one stands as it was', async () => {
  const { shop, asked } = await visitOf();
  const first = await signEntry(shop, asked());
  const correction = asked({
    correctsId: first.id ?? '',
    reason: 'Wrong extent',
    extent: 'the whole aircraft and its cargo hook',
  });
  const second = await signEntry(shop, correction);
  expect(second.text).toContain('This corrects the entry signed by Test inspector');
  expect(second.text).toContain('Wrong extent');
  const rows = await shop.inside((tx) => tx.recordEntry.findMany({ orderBy: { signedAt: 'asc' } }));
  expect(rows.map(({ correctsId }) => correctsId === null)).toEqual([true, false]);
  expect(rows[0]?.text).toBe(first.text);
  expect(await signEntry(shop, correction)).toMatchObject({
    code: 'CONFLICT',
    message: expect.stringContaining('corrected already'),
  });
  expect((await signEntry(shop, asked({ correctsId: first.id ?? '' }))).code).toBe('BAD_INPUT');
});

it("another shop's order, and another aircraft's book, are not there", async () => {
  const { asked, visit } = await visitOf();
  const other = await makeShop(api);
  expect((await signEntry(other, asked(), { text: 'x' })).code).toBe('NOT_FOUND');
  const own: Visit = await makeVisit(other);
  expect((await signEntry(other, { ...asked(), orderId: own.order }, { text: 'x' })).code).toBe(
    'NOT_FOUND',
  );
  const { id: second } = await other.inside((tx) =>
    tx.aircraft.create({
      data: { shopId: other.shopId, modelId: other.modelId, registration: 'QQ-OTHER', serial: '2' },
    }),
  );
  const { id: bookId } = await other.inside((tx) =>
    tx.recordBook.create({ data: { aircraftId: second, kind: 'airframe', title: 'Airframe' } }),
  );
  expect(
    await signEntry(
      other,
      { orderId: own.order, bookId: globalId('RecordBook', bookId), outcome: 'airworthy' },
      { text: 'x' },
    ),
  ).toMatchObject({ code: 'BAD_INPUT', message: expect.stringContaining('another aircraft') });
  void visit;
});
