import { globalId } from '@fairlead/api/ids';
import type { Role } from '@fairlead/database';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { move, stocked } from './stocked.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Done {
  id?: string;
  code?: string;
  message?: string;
  field?: string;
}
async function say(
  shop: TestShop,
  name: 'addPart' | 'changePart' | 'relateParts',
  input: Record<string, unknown>,
  role: Role = 'inspector',
): Promise<Done> {
  const type = `${name[0]?.toUpperCase()}${name.slice(1)}Input`;
  const { data } = await shop.as<{ done: Done }>(
    role,
    `mutation($input: ${type}!) { done: ${name}(input: $input) { ... on Part { id } ... on Refusal { code message field } } }`,
    { input },
  );
  return data?.done ?? {};
}

const terms = { title: 'Drive belt', unitPrice: '64.5', category: 'parts' };
const add = async (shop: TestShop, number: string) =>
  (await say(shop, 'addPart', { ...terms, number, unit: 'each' })).id ?? '';
const relate = (
  shop: TestShop,
  [partId, insteadId]: readonly [string, string],
  kind = 'superseded',
  role: Role = 'inspector',
) => say(shop, 'relateParts', { partId, insteadId, kind, source: 'Maker’s list, rev. 4' }, role);

const shortage = async (shop: TestShop, id: string, wanted?: string) => {
  const { data } = await shop.as<{ node: { shortage: string | null } }>(
    'front_desk',
    'query($id: ID!, $wanted: Decimal) { node(id: $id) { ... on Part { shortage(wanted: $wanted) } } }',
    { id, wanted },
  );
  return data?.node.shortage;
};

it('a part is added once by its number, and changed but for number and unit', async () => {
  const { shop, part } = await stocked(api);
  const id = await add(shop, 'DB-1');
  expect(
    await say(shop, 'addPart', { ...terms, number: 'db-1', unit: 'each', title: 'Another' }),
  ).toMatchObject({
    code: 'CONFLICT',
    message: 'Part DB-1 is known already, as “Drive belt”: a number is given once.',
  });
  // An underline is a letter like any other, and stands for no B.
  expect(await add(shop, 'D_-1')).not.toBe('');
  const change = { ...terms, partId: id, coreCharge: '12500', reorderPoint: '2.5' };
  expect((await say(shop, 'changePart', { ...change, title: 'Drive belt, matched' })).id).toBe(id);
  const { data } = await shop.as(
    'mechanic',
    'query($id: ID!) { node(id: $id) { ... on Part { number title unit coreCharge reorderPoint onHand free } } }',
    { id },
  );
  expect(data).toEqual({
    node: {
      number: 'DB-1',
      title: 'Drive belt, matched',
      unit: 'each',
      coreCharge: '12500',
      reorderPoint: '2.5',
      onHand: '0',
      free: '0',
    },
  });
  for (const [over, field] of [
    [{ coreCharge: '0' }, 'coreCharge'],
    [{ coreCharge: '10000000001' }, 'coreCharge'],
    [{ reorderPoint: '-1' }, 'reorderPoint'],
    [{ unitPrice: '1.00001' }, 'unitPrice'],
    [{ title: ' ' }, 'title'],
  ] as const)
    expect(await say(shop, 'changePart', { ...change, ...over })).toMatchObject({
      code: 'BAD_INPUT',
      field,
    });
  expect((await say(shop, 'changePart', change, 'mechanic')).code).toBe('FORBIDDEN');
  const stranger = await makeShop(api);
  expect(
    (await say(stranger, 'changePart', { ...change, partId: globalId('Part', part.id) })).code,
  ).toBe('NOT_FOUND');
});

it('says what is not there, what supersedes it, and where that lies', async () => {
  const { shop, delivery } = await stocked(api, { bin: 'A1' });
  const [old, next, last, other] = await Promise.all(
    ['OLD-1', 'NEW-2', 'NEW-3', 'ALT-9'].map((number) => add(shop, number)),
  ).then((ids) => ids as [string, string, string, string]);
  expect(await shortage(shop, old)).toBe('None on the shelf.');
  await relate(shop, [old, next]);
  await relate(shop, [next, last]);
  await relate(shop, [next, other], 'alternate');
  await move(shop, 'receiveLot', { ...delivery, partId: last, quantity: '2', bin: 'C1' });
  await move(shop, 'receiveLot', { ...delivery, partId: other, quantity: '1', bin: 'B2' });
  await move(shop, 'receiveLot', { ...delivery, partId: other, quantity: '1.5', bin: '' });
  // Past its date it can be had by nobody.
  await move(shop, 'receiveLot', {
    ...delivery,
    partId: next,
    quantity: '9',
    shelfLifeUntil: '2026-01-31',
  });
  expect(await shortage(shop, old)).toBe(
    'None on the shelf; superseded by NEW-2, of which none is free; superseded by NEW-3, of which 2 lie in bin C1; alternate ALT-9, of which 1.5 lie without a place and 1 in bin B2.',
  );
  // One direction: the newer number is not replaced by the older one.
  expect(await shortage(shop, last, '3')).toBe('2 free on the shelf where 3 are wanted.');
  expect(await shortage(shop, last, '2')).toBeNull();
  const { data } = await shop.as(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on Part { standIns { steps superseding part { number } } instead { kind source instead { number } by { name } } insteadOf { part { number } } } } }',
    { id: next },
  );
  expect(data).toMatchObject({
    node: {
      standIns: [
        { steps: 1, superseding: true, part: { number: 'NEW-3' } },
        { steps: 1, superseding: false, part: { number: 'ALT-9' } },
      ],
      instead: expect.arrayContaining([
        {
          kind: 'superseded',
          source: 'Maker’s list, rev. 4',
          instead: { number: 'NEW-3' },
          by: { name: 'Test inspector' },
        },
      ]),
      insteadOf: [{ part: { number: 'OLD-1' } }],
    },
  });
});

it('nothing leads round in a circle: not to itself, not over others, not when two close it at once', async () => {
  const shop = await makeShop(api);
  const [a, b, c] = (await Promise.all(['A', 'B', 'C'].map((n) => add(shop, n)))) as [
    string,
    string,
    string,
  ];
  expect(await relate(shop, [a, a])).toMatchObject({
    code: 'AGAINST_RULE',
    message: 'A cannot stand in for itself: name another part.',
  });
  expect((await relate(shop, [a, b])).id).toBe(a);
  expect((await relate(shop, [b, c], 'alternate')).id).toBe(b);
  expect(await relate(shop, [c, a], 'alternate')).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringMatching(/^A cannot stand in for C: C stands in for A/),
    field: 'insteadId',
  });
  const [d, e] = (await Promise.all(['D', 'E'].map((n) => add(shop, n)))) as [string, string];
  const both = await Promise.all([relate(shop, [d, e]), relate(shop, [e, d])]);
  expect(both.map(({ code }) => code ?? 'said').sort()).toEqual(['AGAINST_RULE', 'said']);
});

it('the database itself refuses a circle', async () => {
  const shop = await makeShop(api);
  const ids: string[] = [];
  for (const number of ['A', 'B'])
    ids.push(
      (
        await shop.inside((tx) =>
          tx.part.create({ data: { shopId: shop.shopId, number, title: number, unitPrice: '1' } }),
        )
      ).id,
    );
  const [a = '', b = ''] = ids;
  const write = (partId: string, insteadId: string) =>
    shop.inside((tx) =>
      tx.partRelation.create({
        data: { partId, insteadId, kind: 'alternate', source: 'x', byId: shop.people.inspector.id },
      }),
    );
  await write(a, b);
  await expect(write(b, a)).rejects.toThrow(/part_relation_has_no_circle/);
  await expect(write(a, a)).rejects.toThrow(/part_instead_of_another/);
});

it('a relation is withdrawn by saying so; then it may be said the other way round', async () => {
  const shop = await makeShop(api);
  const [a, b] = [await add(shop, 'A'), await add(shop, 'B')];
  expect(await relate(shop, [a, b], 'withdrawn')).toMatchObject({
    code: 'AGAINST_RULE',
    message: 'B does not stand in for A: there is nothing to withdraw.',
  });
  await relate(shop, [a, b]);
  expect((await relate(shop, [a, b])).code).toBe('CONFLICT');
  await relate(shop, [a, b], 'withdrawn');
  expect(await shortage(shop, a)).toBe('None on the shelf.');
  expect((await relate(shop, [b, a])).id).toBe(b);
  expect((await relate(shop, [b, a], 'alternate', 'front_desk')).code).toBe('FORBIDDEN');
  const stranger = await makeShop(api);
  expect((await relate(stranger, [a, b])).code).toBe('NOT_FOUND');
});
