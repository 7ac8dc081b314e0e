/** What somebody types is looked for as it stands: %, _ and \ are no patterns (PostgreSQL's manual, 9.7.1, says that LIKE takes them as such). */
import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, makeTask, type TestShop } from '../../support/shop.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const titles = [
  'Torque to 50 %',
  'Torque to 50 Nm',
  'Clean the a_b duct',
  'Clean the axb duct',
  String.raw`Drain C:\oil`,
];
const found = async (shop: TestShop, list: 'tasks' | 'parts', search: string) => {
  const { data } = await shop.as<Record<string, { edges: { node: { title: string } }[] }>>(
    'front_desk',
    `query($search: String) { ${list}(search: $search, first: 20) { edges { node { title } } } }`,
    { search },
  );
  return data?.[list]?.edges.map(({ node }) => node.title).sort();
};

it.each(['tasks', 'parts'] as const)('in the list of %s', async (list) => {
  const shop = await makeShop(api);
  for (const title of titles)
    if (list === 'tasks') await makeTask(shop, { title, jasc: '8550' });
    else
      await shop.inside((tx) =>
        tx.part.create({
          data: { shopId: shop.shopId, number: randomUUID().slice(0, 8), title, unitPrice: '1' },
        }),
      );
  expect(await found(shop, list, '50 %')).toEqual(['Torque to 50 %']);
  expect(await found(shop, list, 'A_B')).toEqual(['Clean the a_b duct']);
  expect(await found(shop, list, String.raw`c:\o`)).toEqual([String.raw`Drain C:\oil`]);
  expect(await found(shop, list, 'torque TO')).toEqual(['Torque to 50 %', 'Torque to 50 Nm']);
  for (const pattern of ['%', '_', '\\'])
    expect(await found(shop, list, pattern)).toEqual(
      titles.filter((title) => title.includes(pattern)),
    );
});

it('in names that are held against those there are: one that only fits as a pattern is another', async () => {
  const shop = await makeShop(api);
  const add = async (name: string) => {
    const { data } = await shop.as<{ done: { id?: string; code?: string } }>(
      'front_desk',
      'mutation($input: AddContactInput!) { done: addContact(input: $input) { ... on Contact { id } ... on Refusal { code } } }',
      { input: { name } },
    );
    return data?.done;
  };
  expect(await add('Strand Cover')).toHaveProperty('id');
  expect(await add('STRAND cover')).toMatchObject({ code: 'CONFLICT' });
  expect(await add('Strand_Cover')).toHaveProperty('id');
  expect(await add('%')).toHaveProperty('id');
  const kind = async (name: string) => {
    const { data } = await shop.as<{ done: { id: string } }>(
      'manager',
      'mutation($input: AddWorkKindInput!) { done: addWorkKind(input: $input) { ... on WorkKind { id } } }',
      { input: { name } },
    );
    return data?.done.id;
  };
  const avionics = await kind('Avionics');
  expect(await kind('avionics')).toBe(avionics);
  expect(await kind('A%')).not.toBe(avionics);
  const { data } = await shop.as<{ contacts: { name: string }[] }>(
    'front_desk',
    '{ contacts(named: "%") { name } }',
  );
  expect(data?.contacts.map(({ name }) => name)).toEqual(['%']);
});
