import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { entryDraft, makeVisit, signEntry } from '../../support/visit.ts';

/** Equipment that stays inoperative: 14 CFR 91.213(d), and its place on the list of 43.11(b). Read in the regulation's text. */
let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Said {
  id?: string;
  code?: string;
  message?: string;
  field?: string | null;
  inoperative?: { kind: string; capacity: string; answers: string[] }[];
}
const whole = {
  ...{ equipment: 'Landing light', method: 'deactivated', placardAt: 'beside its switch' },
  ...{ notTypeBasis: 'Type certificate data sheet, note 4', notListed: 'Manual, page 6-12' },
  ...{ notRuled: '91.205(b), not for hire at night', notDirected: 'None found on 2026-03-14' },
  ...{ noHazard: 'Breaker pulled and collared', ownList: false },
};
async function visitOf(
  state: 'put_off' | 'noted' = 'put_off',
  over: 'discrepancy' | 'unairworthy' = 'discrepancy',
) {
  const shop = await makeShop(api);
  const visit = await makeVisit(shop, { findings: [{ title: 'Landing light dead', class: over }] });
  const findingId = globalId('Finding', visit.findingIds[0] ?? '');
  if (state === 'put_off')
    await shop.as(
      'inspector',
      'mutation($input: PutOffFindingInput!) { putOffFinding(input: $input) { ... on Finding { id } } }',
      { input: { findingId, reason: 'Lamp on order', untilOn: '2099-06-30' } },
    );
  const asked = {
    ...{ orderId: visit.order, bookId: globalId('RecordBook', shop.bookId), outcome: 'airworthy' },
  };
  const leave = (
    given: Record<string, unknown> = {},
    role: Parameters<TestShop['as']>[0] = 'inspector',
  ) => does(shop, role, { findingId, ...whole, ...given });
  return { shop, visit, findingId, asked, leave };
}
async function does(
  shop: TestShop,
  role: Parameters<TestShop['as']>[0],
  input: Record<string, unknown>,
): Promise<Said> {
  const { data, errors } = await shop.as<{ leaveInoperative: Said }>(
    role,
    `mutation($input: LeaveInoperativeInput!) { leaveInoperative(input: $input) {
      ... on Finding { id inoperative { kind capacity answers } } ... on Refusal { code message field } } }`,
    { input },
  );
  return data?.leaveInoperative ?? { message: JSON.stringify(errors) };
}
const line =
  'Landing light: deactivated and placarded "Inoperative" (beside its switch), as 14 CFR 91.213(d) permits.';
const shown = async (shop: TestShop) => {
  const { data } = await shop.as<{
    node: {
      deferred: { title: string; inoperative: string | null; dueOn: string | null }[];
      statusSheet: { title: string; rows: { what: string; status: string }[] }[];
    };
  }>(
    'manager',
    'query($id: ID!) { node(id: $id) { ... on Aircraft { deferred { title inoperative dueOn } statusSheet { title rows { what status } } } } }',
    { id: globalId('Aircraft', shop.aircraftId) },
  );
  return data?.node;
};

it('stands in the entry, on its list, on the due list and on the status sheet, and the aircraft is found airworthy', async () => {
  const { shop, asked, leave } = await visitOf();
  const left = await leave();
  expect(left.inoperative).toEqual([
    {
      ...{ kind: 'left', capacity: 'mechanic certificate with airframe rating T-1001' },
      answers: expect.arrayContaining([expect.stringMatching(/\(91\.213\(d\)\(2\)\(i\)\): Type/)]),
    },
  ]);
  const { text = '' } = await signEntry(shop, asked);
  expect(text).toContain(`Left inoperative: ${line}`);
  expect(text).toContain('found it to be in an airworthy condition');
  expect(text).toContain(
    'Placarded inoperative and listed for the owner or operator: Landing light dead (finding 1).',
  );
  // 43.11(b): what is permitted to be inoperative stands on the signed and dated list too.
  expect(text).toContain(`1. Landing light dead (finding 1) (inoperative, placarded): ${line}`);
  expect(await shop.inside((tx) => tx.entryDiscrepancy.findMany())).toMatchObject([
    { inoperative: true, class: 'discrepancy' },
  ]);
  const { deferred, statusSheet } = (await shown(shop)) ?? {};
  expect(deferred).toEqual([
    { title: 'Landing light dead', inoperative: line, dueOn: '2099-06-30' },
  ]);
  expect(statusSheet?.find(({ title }) => title.startsWith('Inoperative'))?.rows).toMatchObject([
    { status: line },
  ]);
});

it('stands on the list of the next inspection too, and nowhere once it is corrected', async () => {
  const { shop, findingId, leave } = await visitOf();
  await leave();
  const next = await makeVisit(shop);
  const draft = await entryDraft(shop, {
    ...{ orderId: next.order, bookId: globalId('RecordBook', shop.bookId), outcome: 'airworthy' },
  });
  expect(draft.missing).toEqual([]);
  expect(draft.listed.map(({ words }) => words)).toEqual([
    expect.stringMatching(/^Landing light dead \(finding 1 of order \d+\): Landing light: deact/),
  ]);
  await shop.as(
    'inspector',
    'mutation($findingId: ID!, $words: String!) { settleFinding(findingId: $findingId, words: $words) { ... on Finding { id } } }',
    { findingId, words: 'Lamp replaced, placard taken off' },
  );
  const { deferred, statusSheet } = (await shown(shop)) ?? {};
  expect(deferred).toEqual([]);
  expect(statusSheet?.some(({ title }) => title.startsWith('Inoperative'))).toBe(false);
});

it('taken back, the finding stands as it did', async () => {
  const { shop, findingId, asked, leave } = await visitOf();
  await leave();
  const back = () =>
    shop.as<{ withdrawInoperative: Said }>(
      'inspector',
      'mutation($findingId: ID!) { withdrawInoperative(findingId: $findingId, words: "It is required at night") { ... on Finding { id } ... on Refusal { code message } } }',
      { findingId },
    );
  expect((await back()).data?.withdrawInoperative.id).toBe(findingId);
  expect((await entryDraft(shop, asked)).text).not.toContain('noperative');
  expect((await back()).data?.withdrawInoperative.code).toBe('CONFLICT');
});

it.each([
  ['notTypeBasis', '91.213(d)(2)(i)'],
  ['notListed', '91.213(d)(2)(ii)'],
  ['notRuled', '91.213(d)(2)(iii)'],
  ['notDirected', '91.213(d)(2)(iv)'],
  ['noHazard', '91.213(d)(4)'],
])('is refused while %s is not answered, with its paragraph', async (key, paragraph) => {
  const { shop, leave } = await visitOf();
  const refused = await leave({ [key]: ' ' });
  expect(refused).toMatchObject({ code: 'BAD_INPUT', field: key });
  expect(refused.message).toContain(`14 CFR ${paragraph})`);
  expect(await shop.inside((tx) => tx.inoperativeEquipment.count())).toBe(0);
});

it('is refused by who may not say so, of what is unairworthy or not put off, and where a list of its own governs', async () => {
  const { shop, visit, leave } = await visitOf();
  for (const role of ['mechanic', 'front_desk', 'manager'] as const)
    expect((await leave({}, role)).code).toBe('FORBIDDEN');
  expect((await leave({ ownList: true })).message).toContain('91.213(a)');
  expect((await leave({ method: 'removed' })).message).toContain('91.213(d)(3)(i)');
  expect((await leave({ placardAt: '' })).field).toBe('placardAt');
  const open = await makeVisit(shop, { items: [{ workDone: null }] });
  expect((await leave({ itemId: open.items[0] })).message).toContain('another order');
  await shop.inside((tx) =>
    tx.certificate.updateMany({ data: { validUntil: new Date('2026-03-13') } }),
  );
  expect((await leave()).message).toContain('91.213(d)(4)');
  expect(await shop.inside((tx) => tx.inoperativeEquipment.count())).toBe(0);
  void visit;
  expect((await (await visitOf('noted')).leave()).message).toContain('is put off first');
  expect((await (await visitOf('put_off', 'unairworthy')).leave()).message).toContain('43.11(b)');
});

it('the database refuses an unanswered question, whoever asks', async () => {
  const { shop, visit } = await visitOf();
  await expect(
    shop.inside((tx) =>
      tx.inoperativeEquipment.create({
        data: {
          ...{ findingId: visit.findingIds[0] ?? '', kind: 'left', method: 'deactivated' },
          byId: shop.people.inspector.id,
        },
      }),
    ),
  ).rejects.toThrow();
});
