import { afterAll, beforeAll, expect, it } from 'vitest';
import { LotSheetDocument } from '../../../apps/web/features/stores/lot-documents.ts';
import { ShelfDocument } from '../../../apps/web/features/stores/stores-documents.ts';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeVisit } from '../../support/visit.ts';
import { move, stocked } from './stocked.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

it('the shelves are read in as many statements for thirty lots as for one, reserved ones among them', async () => {
  const { shop, delivery, visit, lot } = await stocked(api);
  await shop.cookie('mechanic');
  const read = () =>
    api.statementsOf(async () => {
      const { data, errors } = await shop.as('mechanic', String(ShelfDocument), { inStock: true });
      expect(errors).toBeUndefined();
      expect(data).not.toBeNull();
    });
  await move(shop, 'reservePart', { lotId: lot.id, orderId: visit.order, quantity: '1' });
  const one = await read();
  for (let batch = 0; batch < 29; batch += 1) {
    const more = await move(shop, 'receiveLot', { ...delivery, batch: `C-${batch}` });
    await move(shop, 'reservePart', { lotId: more.id, orderId: visit.order, quantity: '2' });
  }
  const thirty = await read();
  console.info(`shelves: ${one.length} statements for one lot, ${thirty.length} for thirty`);
  expect(thirty.length).toBe(one.length);
  expect(thirty.length).toBeLessThan(20);
});

it('a recall is read in as many statements for ten aircraft’s work as for one', async () => {
  const { shop, lot, itemId } = await stocked(api);
  const read = () =>
    api.statementsOf(async () => {
      const { data, errors } = await shop.as('mechanic', String(LotSheetDocument), { id: lot.id });
      expect(errors).toBeUndefined();
      expect(data).not.toBeNull();
    });
  await shop.cookie('mechanic');
  await move(shop, 'issuePart', { lotId: lot.id, itemId, quantity: '1' });
  const one = await read();
  for (let more = 0; more < 9; more += 1) {
    const visit = await makeVisit(shop, { inspection: null });
    await move(shop, 'issuePart', { lotId: lot.id, itemId: visit.items[0], quantity: '1' });
  }
  const ten = await read();
  console.info(`recall: ${one.length} statements for one item of work, ${ten.length} for ten`);
  expect(ten.length).toBe(one.length);
});
