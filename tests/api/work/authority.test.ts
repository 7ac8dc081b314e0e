/** What happens past the owner's yes: parts are refused, or go by name; hours are marked; the shop's rule and write-offs. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import type { TestShop } from '../../support/shop.ts';
import { draft, type SoldVisit } from '../books/billing.ts';
import { issue, type Refusal, soldUpTo } from '../stores/past-yes.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
const sold = (seconds: number, over?: Parameters<typeof soldUpTo>[2]) =>
  soldUpTo(api, seconds, over);
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

async function account(shop: TestShop, { order }: SoldVisit) {
  const { data } = await shop.as<{
    node: {
      beyondAuthority: string;
      overrunAllowed: string;
      costSoFar: string;
      writeOffs: { amount: string; reason: string; by: { name: string } }[];
    };
  }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on WorkOrder { beyondAuthority overrunAllowed costSoFar writeOffs { amount reason by { name } } } } }',
    { id: order },
  );
  return data!.node;
}
async function writeOff(
  shop: TestShop,
  { order }: SoldVisit,
  input: { amount: string; reason: string },
  role: 'manager' | 'front_desk' = 'manager',
): Promise<Refusal> {
  const { data, errors } = await shop.as<{ writeOff: Refusal }>(
    role,
    'mutation($input: WriteOffInput!) { writeOff(input: $input) { ... on Refusal { code message field } ... on WorkOrder { id } } }',
    { input: { orderId: order, ...input } },
  );
  if (!data) throw new Error(JSON.stringify(errors));
  return data.writeOff;
}

it('a part that takes the order past the owner’s yes is refused, and goes by a reason under a name', async () => {
  // 2.0 h × 95.00 = 190.00 of 200.00: 12.50 more would be 2.50 past it.
  const { shop, visit, lotId } = await sold(7200);
  const refused = await issue(shop, visit, lotId);
  expect(refused).toMatchObject({ code: 'BEYOND_AGREED', field: 'quantity' });
  expect(refused.message).toMatch(/would go 2\.50 USD past the 200\.00 USD that are agreed/);
  expect(await issue(shop, visit, lotId, { despite: ['beyond_authority'] })).toMatchObject({
    code: 'BAD_INPUT',
    field: 'reason',
  });
  const answered = { despite: ['beyond_authority'], reason: 'The engine stands open.' };
  expect((await issue(shop, visit, lotId, answered)).code).toBeUndefined();
  const kept = await shop.inside((tx) =>
    tx.stockMovement.findFirstOrThrow({ where: { kind: 'issue' } }),
  );
  expect(kept).toMatchObject({ despite: ['beyond_authority'], reason: 'The engine stands open.' });
  expect(await account(shop, visit)).toMatchObject({ beyondAuthority: '250' });
});

it('within the yes it just goes, and what was said without need is not kept', async () => {
  const { shop, visit, lotId } = await sold(3600);
  const said = { despite: ['beyond_authority'], reason: 'To be safe.' };
  expect((await issue(shop, visit, lotId, said)).code).toBeUndefined();
  const kept = await shop.inside((tx) =>
    tx.stockMovement.findFirstOrThrow({ where: { kind: 'issue' } }),
  );
  expect(kept.despite).toEqual([]);
});

it('the shop’s own rule lets small overruns pass and be billed; without it nothing does', async () => {
  // 2.3 h × 95.00 = 218.50; 10 % of 200.00 is 20.00, at most 15.00 by the sum.
  const off = await sold(8280);
  expect(await account(off.shop, off.visit)).toMatchObject({
    overrunAllowed: '0',
    beyondAuthority: '1850',
  });
  const on = await sold(8280, { overrunMinor: 1500n, overrunPercent: '10' });
  expect(await account(on.shop, on.visit)).toMatchObject({
    overrunAllowed: '1500',
    beyondAuthority: '350',
  });
  const nets = [];
  for (const { shop, visit } of [off, on]) {
    const made = await draft(shop, visit);
    nets.push([made.net, made.agreed, made.beyond]);
  }
  expect(nets).toEqual([
    ['20000', '20000', '1850'],
    ['21500', '20000', '350'],
  ]);
});

it('what is beyond authority is written off by the manager, no more than there is, and stays said', async () => {
  const { shop, visit } = await sold(8280);
  const reason = 'We looked in the wrong place first.';
  expect((await writeOff(shop, visit, { amount: '500', reason }, 'front_desk')).code).toBe(
    'FORBIDDEN',
  );
  for (const amount of ['0', '-1', '1851'])
    expect(await writeOff(shop, visit, { amount, reason })).toMatchObject({
      code: 'BAD_INPUT',
      field: 'amount',
    });
  expect((await writeOff(shop, visit, { amount: '1000', reason: ' ' })).field).toBe('reason');
  expect((await writeOff(shop, visit, { amount: '1000', reason })).code).toBeUndefined();
  expect(await account(shop, visit)).toMatchObject({
    beyondAuthority: '850',
    writeOffs: [{ amount: '1000', reason, by: { name: 'Test manager' } }],
  });
  const both = await Promise.all(
    ['600', '600'].map((amount) => writeOff(shop, visit, { amount, reason })),
  );
  expect(both.map(({ code }) => code ?? 'done').toSorted()).toEqual(['BAD_INPUT', 'done']);
});

it('the rule is the manager’s to set, and refuses what is none', async () => {
  const { shop } = await sold(3600);
  const set = async (over: Record<string, unknown>) => {
    const { version, ...now } = await shop.inside(async (tx) => {
      const row = await tx.shop.findFirstOrThrow();
      return {
        version: row.version,
        name: row.name,
        place: row.place,
        timeZone: row.timeZone,
        currency: row.currency,
        standing: row.standing,
        certificateNumber: row.certificateNumber,
        clearanceMm: row.clearanceMm,
        billingStep: row.billingStep.toFixed(),
        billingRounding: row.billingRounding,
        timeInServiceBasis: row.timeInServiceBasis,
      };
    });
    const { data, errors } = await shop.as<{
      changeShop: Refusal & { overrunMinor: string | null; overrunPercent: string | null };
    }>(
      'manager',
      'mutation($input: ChangeShopInput!) { changeShop(input: $input) { ... on Refusal { code field } ... on Shop { overrunMinor overrunPercent } } }',
      { input: { ...now, expectedVersion: version, ...over } },
    );
    if (!data) throw new Error(JSON.stringify(errors));
    return data.changeShop;
  };
  expect(await set({ overrunMinor: '0' })).toMatchObject({ field: 'overrunMinor' });
  expect(await set({ overrunPercent: '101' })).toMatchObject({ field: 'overrunPercent' });
  expect(await set({ overrunMinor: '2500', overrunPercent: '5.5' })).toEqual({
    overrunMinor: '2500',
    overrunPercent: '5.5',
  });
  expect(await set({ overrunMinor: null })).toEqual({ overrunMinor: null, overrunPercent: '5.5' });
});
