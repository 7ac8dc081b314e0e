import { schema } from '@fairlead/api/schema';
import type { Role } from '@fairlead/database';
import pg from 'pg';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, makeTask, type TestShop } from '../../support/shop.ts';
import { draftInvoice, makeOrder, uuid } from '../guarantees/rows.ts';
import { type Ids, request, seeded } from './nonsense.ts';

const INPUTS = Number(process.env.FUZZ_INPUTS ?? 5000);
const SEED = Number(process.env.FUZZ_SEED ?? 20_261_125);

let api: TestApi;
let ours: TestShop;
let theirs: TestShop;
let ids: Ids;
let admin: pg.Client;
beforeAll(async () => {
  api = await startApi();
  [ours, theirs] = [await makeShop(api), await makeShop(api)];
  ids = { ours: await idsOf(ours), theirs: await idsOf(theirs) };
  admin = new pg.Client({ connectionString: api.database.adminUrl });
  await admin.connect();
});
afterAll(async () => {
  await admin.end();
  await api.stop();
});

async function idsOf(shop: TestShop): Promise<Record<string, string>> {
  const order = await makeOrder(shop);
  const task = await makeTask(shop);
  const made = await shop.inside(async (tx) => {
    const part = await tx.part.create({
      data: { shopId: shop.shopId, number: 'P-1', title: 'Part', unitPrice: '12.50' },
    });
    const lot = await tx.lot.create({
      data: {
        partId: part.id,
        supplier: 'Supplier',
        batch: 'B',
        receivedOn: new Date('2026-01-01'),
        unitCost: '6',
      },
    });
    const bundle = await tx.package.create({
      data: { shopId: shop.shopId, key: 'p', title: 'Package' },
    });
    await tx.packageTask.create({ data: { packageId: bundle.id, taskId: task.id, position: 1 } });
    const finding = await tx.finding.create({
      data: {
        orderId: order.orderId,
        number: 1,
        title: 'Finding',
        provisionalClass: 'discrepancy',
        foundAt: new Date(),
        foundById: shop.people.mechanic.id,
        clientEventId: uuid(),
      },
    });
    const event = await tx.clockEvent.create({
      data: {
        personId: shop.people.mechanic.id,
        kind: 'stop',
        at: new Date(),
        clientEventId: uuid(),
      },
    });
    const photo = await tx.photo.create({
      data: {
        shopId: shop.shopId,
        sha256: '0'.repeat(64),
        mime: 'image/jpeg',
        width: 1,
        height: 1,
        bytes: 1,
      },
    });
    const purchase = await tx.purchaseOrder.create({
      data: { supplier: 'Supplier', currency: 'USD', byId: shop.people.manager.id },
    });
    const line = await tx.purchaseLine.create({
      data: { orderId: purchase.id, position: 1, partId: part.id, quantity: '3', unitCost: '2' },
    });
    return {
      PurchaseOrder: purchase.id,
      PurchaseLine: line.id,
      Part: part.id,
      Lot: lot.id,
      Package: bundle.id,
      Finding: finding.id,
      ClockEvent: event.id,
      Photo: photo.id,
    };
  });
  const keys = {
    ...made,
    Task: task.id,
    Aircraft: shop.aircraftId,
    Contact: shop.contactId,
    Stand: shop.standId,
    RecordBook: shop.bookId,
    WorkOrder: order.orderId,
    WorkItem: order.itemId,
    Quote: order.quoteId,
    Invoice: await draftInvoice(shop, order.orderId),
    Person: shop.people.mechanic.id,
  };
  return Object.fromEntries(
    Object.entries(keys).map(([type, id]) => [
      type,
      Buffer.from(`${type}:${id}`).toString('base64url'),
    ]),
  );
}

const changes = async (shop: TestShop): Promise<number> =>
  Number(
    (await admin.query('SELECT count(*) AS n FROM audit WHERE shop_id = $1', [shop.shopId])).rows[0]
      .n,
  );

interface Outcome {
  status: number;
  body: {
    data?: Record<string, { __typename?: string } | null> | null;
    errors?: { message: string; extensions?: { code?: string } }[];
  };
}

it(`${INPUTS} inputs of every kind get a clear answer: none a fault of ours, none half-done, none touches another shop`, {
  timeout: 600_000,
}, async () => {
  const dice = seeded(SEED);
  const roots = [
    ...Object.values(schema.getQueryType()?.getFields() ?? {}).map(
      (field) => ['query', field] as const,
    ),
    ...Object.values(schema.getMutationType()?.getFields() ?? {}).flatMap((field) => [
      ['mutation', field] as const,
      ['mutation', field] as const,
    ]),
  ];
  const cookies = await Promise.all(
    (['front_desk', 'mechanic', 'inspector', 'manager'] satisfies Role[]).map((role) =>
      ours.cookie(role),
    ),
  );
  const untouched = await changes(theirs);
  const answers = new Map<string, number>();
  const faults: string[] = [];
  let before = await changes(ours);

  for (let turn = 0; turn < INPUTS; turn += 1) {
    const [operation, field] = dice.pick(roots);
    const sent = request(dice, operation, field, ids);
    const cookie = dice.chance(0.03) ? '' : dice.pick(cookies);
    const response = await fetch(`${api.origin}/graphql`, {
      method: 'POST',
      headers: {
        'content-type': 'application/json',
        'apollo-require-preflight': '1',
        ...(cookie && { cookie }),
      },
      body: JSON.stringify(sent),
    });
    const { status, body }: Outcome = {
      status: response.status,
      body: (await response.json()) as Outcome['body'],
    };
    const codes = body.errors?.map(({ extensions }) => extensions?.code ?? 'NONE') ?? [];
    const answer = body.data?.[field.name];
    const refused = codes.length > 0 || answer?.__typename === 'Refusal';
    if (
      status >= 500 ||
      codes.includes('INTERNAL') ||
      codes.includes('INTERNAL_SERVER_ERROR') ||
      codes.includes('NONE')
    )
      faults.push(
        `turn ${turn} ${field.name}: ${status} ${JSON.stringify(body.errors).slice(0, 300)} for ${JSON.stringify(sent.variables).slice(0, 400)}`,
      );
    if (operation === 'mutation') {
      const after = await changes(ours);
      if (refused && after !== before)
        faults.push(
          `turn ${turn} ${field.name}: refused, yet ${after - before} rows changed, for ${JSON.stringify(sent.variables).slice(0, 400)}`,
        );
      before = after;
    }
    const kind = codes[0] ?? answer?.__typename ?? 'null';
    answers.set(kind, (answers.get(kind) ?? 0) + 1);
  }
  expect(faults.slice(0, 10)).toEqual([]);
  expect(api.faults).toEqual([]);
  expect(await changes(theirs)).toBe(untouched);
  // The inputs are only worth something if some of them get through and some do not.
  expect(answers.get('Refusal') ?? 0).toBeGreaterThan(INPUTS / 20);
  expect([...answers.keys()].length).toBeGreaterThan(10);
});
