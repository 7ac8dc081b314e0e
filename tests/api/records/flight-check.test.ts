import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { entryDraft, makeVisit } from '../../support/visit.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Noted {
  code?: string;
  message?: string;
  field?: string | null;
  flightChecks: { kind: string; words: string; pilotName: string | null; flownOn: string | null }[];
}
async function note(
  shop: TestShop,
  input: Record<string, unknown>,
  role: Parameters<TestShop['as']>[0] = 'inspector',
): Promise<Noted> {
  const answer = await shop.as<{ noteFlightCheck: Noted }>(
    role,
    `mutation($input: NoteFlightCheckInput!) { noteFlightCheck(input: $input) { ... on Refusal { code message field }
      ... on WorkOrder { flightChecks { kind words pilotName flownOn } } } }`,
    { input },
  );
  if (!answer.data) throw new Error(JSON.stringify(answer.errors));
  return answer.data.noteFlightCheck;
}
const visitOf = async () => {
  const shop = await makeShop(api);
  const visit = await makeVisit(shop);
  const text = async () =>
    (
      await entryDraft(shop, {
        orderId: visit.order,
        bookId: globalId('RecordBook', shop.bookId),
        outcome: 'airworthy',
      })
    ).text;
  return { shop, orderId: visit.order, text };
};
const today = () => new Date().toISOString().slice(0, 10);
const flight = { pilotName: 'Test Pilot', pilotCertificate: 'private pilot, number 4401' };

it('while it is asked for the airframe’s entry says so; once it is flown it does not', async () => {
  const { shop, orderId, text } = await visitOf();
  expect(await text()).not.toContain('91.407');
  await note(shop, { orderId, kind: 'asked', words: 'Rudder rigged anew.' });
  expect(await text()).toContain(
    'To be flown before anybody but its crew is carried, since the work may have changed how it flies or works in flight (14 CFR 91.407(b)): Rudder rigged anew. An appropriately rated pilot with at least a private certificate flies it',
  );
  const flown = await note(
    shop,
    { orderId, kind: 'flown', words: 'Trim neutral in cruise.', ...flight, flownOn: today() },
    'front_desk',
  );
  expect(flown.flightChecks.map(({ kind, pilotName }) => [kind, pilotName])).toEqual([
    ['flown', 'Test Pilot'],
    ['asked', null],
  ]);
  expect(await text()).not.toContain('91.407');
});

it('ground tests may show that it need not be flown, and it can be asked for again', async () => {
  const { shop, orderId } = await visitOf();
  await note(shop, { orderId, kind: 'asked', words: 'Governor replaced.' });
  await note(shop, { orderId, kind: 'ground_tests', words: 'Full run-up, governing steady.' });
  const again = await note(shop, { orderId, kind: 'asked', words: 'It hunts after all.' });
  expect(again.flightChecks.map(({ kind }) => kind)).toEqual(['asked', 'ground_tests', 'asked']);
});

it('is refused where it makes no sense, and nothing is noted', async () => {
  const { shop, orderId } = await visitOf();
  const asked = { orderId, kind: 'asked', words: 'Rudder rigged anew.' };
  const flown = { orderId, kind: 'flown', words: 'As it should be.', ...flight };
  expect((await note(shop, { ...flown, flownOn: today() })).code).toBe('CONFLICT');
  expect((await note(shop, asked, 'mechanic')).code).toBe('FORBIDDEN');
  expect((await note(shop, asked, 'front_desk')).code).toBe('FORBIDDEN');
  expect(await note(shop, { ...asked, words: ' ' })).toMatchObject({ field: 'words' });
  expect(await note(shop, { ...asked, ...flight })).toMatchObject({ field: 'pilotName' });
  await note(shop, asked);
  expect(await note(shop, asked)).toMatchObject({ code: 'CONFLICT' });
  expect(await note(shop, { ...flown, flownOn: '2199-01-01' })).toMatchObject({
    code: 'BAD_INPUT',
    field: 'flownOn',
  });
  expect(await note(shop, flown)).toMatchObject({ field: 'flownOn' });
  expect(await note(shop, { ...flown, flownOn: today(), pilotName: '' })).toMatchObject({
    field: 'pilotName',
  });
  expect(await shop.inside((tx) => tx.flightCheck.count())).toBe(1);
});
