/** What the owner reads of why work takes as long as it is offered for. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { addJobs, learn, makeShop, makeTask } from '../../support/shop.ts';
import { forOwner, gid, sentQuote, tasksOf } from '../quoting/quoting-shop.ts';
import { linkTo, offerOf, pageAt } from './owner-shop.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

test('each line by time says why in one sentence without a name, and what tends to be found is foretold', async () => {
  const shop = await makeShop(api);
  const inspect = await makeTask(shop, { key: 'inspect', title: 'Inspect it', standardHours: '2' });
  const correct = await makeTask(shop, { title: 'Replace the hose', standardHours: '3' });
  await addJobs(shop, 'inspect', [2.8, 3.1, 2.9, 3.3, 3.0, 2.7], { mechanic: 'Test mechanic' });
  await learn(shop);
  const packageId = await shop.inside(async (tx) => {
    const { id } = await tx.package.create({
      data: { shopId: shop.shopId, key: 'p', title: 'The hundred' },
    });
    await tx.packageTask.create({ data: { packageId: id, taskId: inspect.id, position: 1 } });
    await tx.toldFinding.create({
      data: {
        packageId: id,
        taskId: correct.id,
        seen: 6,
        of: 20,
        toldById: shop.people.manager.id,
      },
    });
    return id;
  });
  const quote = await sentQuote(shop, {
    ...forOwner(shop),
    packageId: gid('Package', packageId),
    tasks: [],
  });
  const offer = offerOf(await pageAt(api, await linkTo(shop, { quoteId: quote.id })), quote);
  expect(offer.lines).toHaveLength(1);
  expect(offer.lines[0]?.why).toMatch(
    /^2\.0 h is the standard time, this shop takes ×1\.\d\d of it.*: about 2\.\d h, nine times in ten under [34]\.\d h\.$/,
  );
  expect(JSON.stringify(offer)).not.toContain('Test mechanic');
  expect(offer.foretold?.sentence).toMatch(/nine in ten should come out under [\d,]+ USD\./);
  expect(offer.foretold?.findings).toMatchObject([
    { title: 'Replace the hose', sentence: expect.stringContaining('6 of 20 on others') },
  ]);

  const alone = await sentQuote(shop, { ...forOwner(shop), tasks: tasksOf([inspect]) });
  const plain = offerOf(await pageAt(api, await linkTo(shop, { quoteId: alone.id })), alone);
  expect(plain.foretold).toBeNull();
});
