import type pg from 'pg';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { asShop, rawConnection, stateOf } from './raw.ts';
import { decide, makeOrder, uuid } from './rows.ts';

let api: TestApi;
let shop: TestShop;
let app: pg.Client;
let owner: pg.Client;
let made: Awaited<ReturnType<typeof makeOrder>>;

beforeAll(async () => {
  api = await startApi();
  shop = await makeShop(api);
  made = await makeOrder(shop);
  app = await rawConnection(api.database.appUrl);
  owner = await rawConnection(api.database.migratorUrl);
});
afterAll(async () => {
  await app.end();
  await owner.end();
  await api.stop();
});

const facts = [
  'access',
  'meter_reading',
  'flight',
  'part_handling',
  'shop_key_change',
  'qualification',
  'inoperative_equipment',
  'due_item',
  'due_event',
  'directive',
  'directive_reach',
  'directive_decision',
  'duty',
  'duty_done',
  'data_source',
  'data_check',
  'labour_rate',
  'tax_rate',
  'quote_revision',
  'quote_line',
  'quote_sending',
  'decision',
  'order_event',
  'squawk',
  'item_event',
  'caution_reading',
  'clock_event',
  'finding',
  'finding_event',
  'finding_sighting',
  'finding_outcome',
  'photo',
  'finding_photo',
  'stock_movement',
  'reservation_event',
  'lot_document',
  'part_relation',
  'core_event',
  'purchase_order',
  'purchase_line',
  'purchase_event',
  'payment',
  'record_entry',
  'entry_item',
  'entry_discrepancy',
  'history_import',
  'history_item',
  'open_line',
  'open_line_event',
  'tool_count',
  'tool_count_line',
  'hand_over',
  'take_over',
  'checklist_event',
  'leak_check',
  'tool_calibration',
  'torque_record',
  'compression_check',
  'mail',
  'mail_paper',
  'mail_file',
  'mail_event',
  'deposit',
  'deposit_refund',
  'at_our_cost',
  'payer_share',
  'payer_share_item',
  'payer_share_end',
  'order_charge',
  'order_charge_end',
  'outside_job',
  'outside_event',
  'outside_document',
  'outside_bill',
  'aircraft_sale',
  'aircraft_sale_order',
  'storage_rule',
  'ready_notice',
  'work_kind',
  'part_price',
  'mark_up_list',
  'mark_up_band',
  'supplies_rule',
  'tax_exemption',
  'tax_exemption_end',
  'audit',
  'chain_link',
];

it.each(facts)(
  'a row of %s is never changed, deleted or emptied out: not by the application, not by the owner',
  async (table) => {
    await asShop(app, shop.shopId, async () => {
      for (const attempt of [
        `UPDATE ${table} SET shop_id = shop_id`,
        `DELETE FROM ${table}`,
        `TRUNCATE ${table}`,
      ]) {
        await app.query('SAVEPOINT attempt');
        expect(await stateOf(app.query(attempt)), attempt).toBe('42501');
        await app.query('ROLLBACK TO attempt');
      }
    });
    expect(await stateOf(owner.query(`TRUNCATE ${table} CASCADE`))).toBe('FL001');
    const triggers = await owner.query(
      'SELECT tgname FROM pg_trigger WHERE tgrelid = $1::regclass AND tgenabled = $2',
      [table, 'O'],
    );
    expect(triggers.rows.map(({ tgname }) => tgname)).toEqual(
      expect.arrayContaining(['appended_only', 'never_emptied']),
    );
  },
);

it('a decision, a clock event and an audit row refuse the owner too, row by row', async () => {
  await decide(shop, made.revisionId);
  await shop.inside((tx) =>
    tx.clockEvent.create({
      data: {
        personId: shop.people.mechanic.id,
        kind: 'start',
        itemId: made.itemId,
        at: new Date(),
        clientEventId: uuid(),
      },
    }),
  );
  for (const table of ['decision', 'clock_event', 'audit', 'chain_link']) {
    const { rows } = await owner.query(`SELECT count(*)::int AS n FROM ${table}`);
    expect(rows[0].n, table).toBeGreaterThan(0);
    expect(await stateOf(owner.query(`UPDATE ${table} SET id = id`)), table).toBe('FL001');
    expect(await stateOf(owner.query(`DELETE FROM ${table}`)), table).toBe('FL001');
  }
});

it('a sent revision takes no further line, and an unsent one no decision', async () => {
  const fresh = await makeOrder(shop);
  const decision = {
    revisionId: fresh.revisionId,
    contactId: shop.contactId,
    choice: 'go_ahead',
    channel: 'telephone',
    wordsShown: 'x',
    ceilingMinor: 1,
    currency: 'USD',
    decidedAt: new Date(),
  } as const;
  await expect(shop.inside((tx) => tx.decision.create({ data: decision }))).rejects.toThrow(
    /not sent/,
  );
  await shop.inside((tx) =>
    tx.quoteSending.create({ data: { revisionId: fresh.revisionId, channel: 'email' } }),
  );
  const line = {
    revisionId: fresh.revisionId,
    position: 1,
    pricing: 'fixed',
    title: 'Late',
    category: 'labour',
    taxCode: 'S',
    taxRate: 0,
    quantity: 1,
    unitPrice: 1,
    lowMinor: 1,
    likelyMinor: 1,
    p80Minor: 1,
    highMinor: 1,
  } as const;
  await expect(shop.inside((tx) => tx.quoteLine.create({ data: line }))).rejects.toThrow(
    /new revision/,
  );
  await expect(
    shop.inside((tx) => tx.decision.create({ data: { ...decision, ceilingMinor: null } })),
  ).rejects.toThrow(/ceiling_goes_with_a_yes/);
  await expect(
    shop.inside((tx) => tx.decision.create({ data: { ...decision, ceilingMinor: -1 } })),
  ).rejects.toThrow(/ceiling_not_negative/);
});

it('a quote that became a job stays with it', async () => {
  const another = await makeOrder(shop);
  await expect(
    shop.inside((tx) =>
      tx.quote.update({ where: { id: made.quoteId }, data: { orderId: another.orderId } }),
    ),
  ).rejects.toThrow(/its order already/);
});

it('the same client event is kept once', async () => {
  const clientEventId = uuid();
  const event = {
    personId: shop.people.mechanic.id,
    kind: 'stop',
    at: new Date(),
    clientEventId,
  } as const;
  await shop.inside((tx) => tx.clockEvent.create({ data: event }));
  await expect(shop.inside((tx) => tx.clockEvent.create({ data: event }))).rejects.toMatchObject({
    code: 'P2002',
  });
});
