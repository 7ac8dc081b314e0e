import { randomUUID } from 'node:crypto';
import { globalId as gid } from '@fairlead/api/ids';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Answer {
  id: string;
  code?: string;
  message?: string;
  field?: string | null;
  registration: string;
  books: { title: string }[];
  readings: { readingHundredths: number; tisHundredths: number }[];
  contacts: { capacity: string; mayAuthorise: string | null; contact: { name: string } }[];
}
const AIRCRAFT =
  '... on Refusal { code message field } ... on Aircraft { id registration books { title } readings { readingHundredths tisHundredths } contacts { capacity mayAuthorise contact { name } } }';
const act =
  (name: string, fields: string) =>
  async (
    shop: TestShop,
    input: Record<string, unknown>,
    role: Parameters<TestShop['as']>[0] = 'front_desk',
  ): Promise<Answer> => {
    const type = `${name[0]?.toUpperCase()}${name.slice(1)}Input`;
    const answer = await shop.as<{ done: Answer }>(
      role,
      `mutation($input: ${type}!) { done: ${name}(input: $input) { ${fields} } }`,
      { input },
    );
    if (!answer.data) throw new Error(JSON.stringify(answer.errors));
    return answer.data.done;
  };
const addAircraft = act('addAircraft', AIRCRAFT);
const nameContact = act('nameContact', AIRCRAFT);
const endStanding = act('endStanding', AIRCRAFT);
const addModel = act(
  'addModel',
  '... on Refusal { code message field } ... on AircraftModel { id }',
);

const twin = {
  maker: 'Invented Works',
  name: 'Sanderling T',
  kind: 'airplane_twin',
  lengthMm: 9200,
  spanMm: 12_100,
  heightMm: 3200,
  parkedLengthMm: 9200,
  parkedWidthMm: 12_100,
};
const given = (modelId: string) => ({
  modelId,
  registration: ' qq-901 ',
  serial: 'S-0042',
  year: 1998,
  meter: 'tachometer',
  readingHundredths: 123_450,
  tisHundredths: 323_450,
});

describe('an aircraft that the shop has not had yet', () => {
  it('comes with the record books of its kind, its time in service, and whoever answers for it', async () => {
    const shop = await makeShop(api);
    const model = await addModel(shop, twin);
    const craft = await addAircraft(shop, given(model.id));
    expect(craft).toMatchObject({
      registration: 'QQ-901',
      readings: [{ readingHundredths: 123_450, tisHundredths: 323_450 }],
      contacts: [],
    });
    expect(craft.books.map(({ title }) => title).toSorted()).toEqual([
      'Airframe',
      'Left engine',
      'Left propeller',
      'Right engine',
      'Right propeller',
    ]);
    const who = {
      aircraftId: craft.id,
      contactId: gid('Contact', shop.contactId),
      capacity: 'owner',
    };
    const named = await nameContact(shop, { ...who, mayAuthorise: '250000' });
    expect(named.contacts).toEqual([
      { capacity: 'owner', mayAuthorise: '250000', contact: { name: 'Test Owner' } },
    ]);
    expect((await nameContact(shop, who)).contacts[0]?.mayAuthorise).toBeNull();
    expect((await endStanding(shop, who)).contacts).toEqual([]);
    expect(await endStanding(shop, who)).toMatchObject({ code: 'CONFLICT' });
    expect((await nameContact(shop, { ...who, mayAuthorise: '0' })).contacts).toHaveLength(1);
  });

  it('is told apart from those that are there, by registration and by serial', async () => {
    const shop = await makeShop(api);
    const model = gid('AircraftModel', shop.modelId);
    await addAircraft(shop, given(model));
    expect(await addAircraft(shop, given(model))).toMatchObject({
      code: 'CONFLICT',
      field: 'registration',
    });
    expect(await addAircraft(shop, { ...given(model), registration: 'QQ-902' })).toMatchObject({
      code: 'CONFLICT',
      field: 'serial',
    });
    const other = await makeShop(api);
    expect((await addAircraft(other, given(gid('AircraftModel', other.modelId)))).code).toBe(
      undefined,
    );
  });

  it('sent twice at once is there once', async () => {
    const shop = await makeShop(api);
    await shop.cookie('front_desk');
    const input = given(gid('AircraftModel', shop.modelId));
    const both = await Promise.all([addAircraft(shop, input), addAircraft(shop, input)]);
    expect(both.map(({ code }) => code ?? 'done').toSorted()).toEqual(['CONFLICT', 'done']);
  });

  it.each([
    [{ registration: 'Q' }, 'registration', /3 to 13 in all/],
    [{ registration: 'QQ 9-1-1' }, 'registration', /at most one hyphen/],
    [{ year: 1800 }, 'year', /1903 to/],
    [
      { tisHundredths: -1 },
      'tisHundredths',
      /time in service was given as -0.01 h: needed is 0 to 100000 h/,
    ],
    [{ serial: ' ' }, 'serial', /needed are 1 to 60/],
  ])('given %j is refused, and nothing is kept', async (over, field, words) => {
    const shop = await makeShop(api);
    const refusal = await addAircraft(shop, {
      ...given(gid('AircraftModel', shop.modelId)),
      ...over,
    });
    expect(refusal).toMatchObject({ code: 'BAD_INPUT', field });
    expect(refusal.message).toMatch(words);
    expect(await shop.inside((tx) => tx.aircraft.count())).toBe(1);
  });

  it('is for the desk and the manager', async () => {
    const shop = await makeShop(api);
    const input = given(gid('AircraftModel', shop.modelId));
    expect((await addAircraft(shop, input, 'mechanic')).code).toBe('FORBIDDEN');
    expect((await addModel(shop, twin, 'inspector')).code).toBe('FORBIDDEN');
  });
});

it('a model is refused twice, and with sizes that no aircraft has', async () => {
  const shop = await makeShop(api);
  await addModel(shop, twin);
  expect(await addModel(shop, { ...twin, name: 'SANDERLING t' })).toMatchObject({
    code: 'CONFLICT',
    field: 'name',
  });
  expect(await addModel(shop, { ...twin, name: 'Other', spanMm: 12 })).toMatchObject({
    code: 'BAD_INPUT',
    field: 'spanMm',
  });
});

it('nobody is named for an aircraft or from a shop that is not theirs', async () => {
  const shop = await makeShop(api);
  const other = await makeShop(api);
  const who = {
    aircraftId: gid('Aircraft', shop.aircraftId),
    contactId: gid('Contact', other.contactId),
    capacity: 'payer',
  };
  expect((await nameContact(shop, who)).code).toBe('NOT_FOUND');
  expect(
    (await nameContact(shop, { ...who, aircraftId: gid('Aircraft', randomUUID()) })).code,
  ).toBe('NOT_FOUND');
  expect(
    await nameContact(shop, {
      ...who,
      contactId: gid('Contact', shop.contactId),
      mayAuthorise: '-1',
    }),
  ).toMatchObject({ code: 'BAD_INPUT', field: 'mayAuthorise' });
});
