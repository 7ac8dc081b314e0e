import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import {
  decide,
  draft,
  forOwner,
  gid,
  makeFinding,
  makePackage,
  makePart,
  makeTasks,
  quoted,
  refused,
  revise,
  send,
  sentQuote,
  tasksOf,
  yesTo,
} from './quoting-shop.ts';

let api: TestApi;
/** Days that the shop's clock is ahead. */
let ahead = 0;
beforeAll(async () => {
  api = await startApi({ now: () => new Date(Date.now() + ahead * 86_400_000) });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const counts = (shop: TestShop) =>
  shop.inside(async (tx) => ({
    decisions: await tx.decision.count(),
    orders: await tx.workOrder.count(),
    items: await tx.workItem.count(),
  }));

describe("the owner's yes to a visit", () => {
  it('makes one order with an item for each task, in order, and none for the price or the parts', async () => {
    const shop = await makeShop(api);
    const tasks = await makeTasks(shop, 3, {
      critical: true,
      cautions: ['Hot parts'],
      reference: 'Manual 5-20',
      jasc: '7200',
    });
    const access = await shop.inside(async (tx) => {
      const row = await tx.access.create({ data: { shopId: shop.shopId, clearanceMm: 95 } });
      await tx.taskPlace.create({
        data: { taskId: tasks[1]?.id ?? '', modelId: shop.modelId, accessId: row.id },
      });
      return row;
    });
    const pack = await makePackage(shop, tasks, { priceMinor: 150_000n });
    const part = await makePart(shop);
    const quote = await sentQuote(shop, {
      packageId: gid('Package', pack.id),
      parts: [{ partId: gid('Part', part.id), quantity: '1' }],
    });
    const agreed = quoted(await decide(shop, yesTo(shop, quote)));
    expect(agreed.state).toBe('accepted');
    expect(agreed.newest.decisions).toEqual([
      {
        choice: 'go_ahead',
        ceiling: quote.newest.high,
        contact: { name: 'Test Owner' },
        recordedBy: { name: 'Test front_desk' },
        channel: 'telephone',
        wordsShown: 'What it is and what it may cost.',
      },
    ]);
    const order = await shop.inside((tx) =>
      tx.workOrder.findFirstOrThrow({
        include: {
          items: { orderBy: { position: 'asc' }, include: { quoteLine: true } },
          quotes: true,
        },
      }),
    );
    expect(order).toMatchObject({
      number: 1,
      title: 'Test inspection',
      inspection: 'hundred_hour',
      aircraftId: shop.aircraftId,
      openedById: shop.people.front_desk.id,
    });
    expect(gid('Quote', order.quotes[0]?.id ?? '')).toBe(quote.id);
    expect(
      order.items.map(
        ({ position, title, taskId, jasc, critical, cautions, reference, findingId }) => ({
          position,
          title,
          taskId,
          jasc,
          critical,
          cautions,
          reference,
          findingId,
        }),
      ),
    ).toEqual(
      tasks.map(({ id, title }, index) => ({
        position: index + 1,
        title,
        taskId: id,
        jasc: '7200',
        critical: true,
        cautions: ['Hot parts'],
        reference: 'Manual 5-20',
        findingId: null,
      })),
    );
    expect(order.items.map(({ plannedAccessId }) => plannedAccessId)).toEqual([
      null,
      access.id,
      null,
    ]);
    expect(order.items.map(({ quoteLine }) => [quoteLine?.taskId, quoteLine?.position])).toEqual(
      tasks.map(({ id }, index) => [id, index + 2]),
    );
    expect(await shop.inside((tx) => tx.$queryRaw`SELECT * FROM chain_faults()`)).toEqual([]);
  });

  it('said twice is one decision and one order, also when both arrive together', async () => {
    const shop = await makeShop(api);
    const quote = await sentQuote(shop);
    const yes = yesTo(shop, quote);
    const answers = await Promise.all([
      decide(shop, yes),
      decide(shop, yes),
      decide(shop, yes),
      decide(shop, yes),
    ]);
    expect(answers.map((answer) => quoted(answer).state)).toEqual([
      'accepted',
      'accepted',
      'accepted',
      'accepted',
    ]);
    expect(quoted(await decide(shop, yes)).newest.decisions).toHaveLength(1);
    expect(await counts(shop)).toEqual({ decisions: 1, orders: 1, items: 1 });
  });

  it('and another answer at the same moment: one counts, the other is told who said what', async () => {
    const shop = await makeShop(api);
    const quote = await sentQuote(shop);
    const answers = await Promise.all([
      decide(shop, yesTo(shop, quote)),
      decide(shop, yesTo(shop, quote, { choice: 'not_now' })),
      decide(shop, yesTo(shop, quote, { ceiling: '1' })),
    ]);
    const conflicts = answers.filter((answer) => answer.__typename === 'Refusal').map(refused);
    expect(conflicts.map(({ code }) => code)).toEqual(['CONFLICT', 'CONFLICT']);
    for (const { message } of conflicts)
      expect(message).toMatch(/Test Owner said (go ahead|not now)/);
    expect((await counts(shop)).decisions).toBe(1);
    expect((await counts(shop)).orders).toBeLessThanOrEqual(1);
  });

  it('goes as far as its ceiling, and no further than the contact may authorise', async () => {
    const shop = await makeShop(api);
    const limited = await shop.inside(async (tx) => {
      const contact = await tx.contact.create({
        data: { shopId: shop.shopId, name: 'Chief pilot' },
      });
      await tx.aircraftContact.create({
        data: {
          aircraftId: shop.aircraftId,
          contactId: contact.id,
          capacity: 'operator',
          since: new Date('2025-01-01'),
          mayAuthoriseMinor: 10_000n,
        },
      });
      await tx.aircraftContact.create({
        data: {
          aircraftId: shop.aircraftId,
          contactId: contact.id,
          capacity: 'payer',
          since: new Date('2025-01-01'),
          mayAuthoriseMinor: 0n,
        },
      });
      return contact;
    });
    const quote = await sentQuote(shop);
    const by = { contactId: gid('Contact', limited.id) };
    const { code, field, message } = refused(await decide(shop, yesTo(shop, quote, by)));
    expect([code, field]).toEqual(['BEYOND_AGREED', 'ceiling']);
    expect(message).toContain('100.00 USD');
    expect(message.replaceAll(',', '')).toContain(
      `${(Number(quote.newest.high) / 100).toFixed(2)} USD`,
    );
    expect(refused(await decide(shop, yesTo(shop, quote, { ...by, ceiling: '10001' }))).code).toBe(
      'BEYOND_AGREED',
    );
    expect(await counts(shop)).toEqual({ decisions: 0, orders: 0, items: 0 });
    expect(
      quoted(await decide(shop, yesTo(shop, quote, { ...by, ceiling: '10000' }))).newest
        .decisions[0],
    ).toMatchObject({ ceiling: '10000', contact: { name: 'Chief pilot' } });
  });

  it('is refused from somebody without standing, whose time with the aircraft is over, or of another shop', async () => {
    const [shop, other] = [await makeShop(api), await makeShop(api)];
    const quote = await sentQuote(shop);
    const sold = await shop.inside(async (tx) => {
      const contact = await tx.contact.create({
        data: { shopId: shop.shopId, name: 'Earlier owner' },
      });
      await tx.aircraftContact.create({
        data: {
          aircraftId: shop.aircraftId,
          contactId: contact.id,
          capacity: 'owner',
          since: new Date('2025-01-01'),
          until: new Date('2025-02-01'),
        },
      });
      return contact;
    });
    expect(
      refused(await decide(shop, yesTo(shop, quote, { contactId: gid('Contact', sold.id) }))),
    ).toMatchObject({
      code: 'AGAINST_RULE',
      field: 'contactId',
      message: expect.stringContaining('Earlier owner'),
    });
    expect(
      refused(
        await decide(shop, yesTo(shop, quote, { contactId: gid('Contact', other.contactId) })),
      ).code,
    ).toBe('NOT_FOUND');
    expect(refused(await decide(other, yesTo(other, quote))).code).toBe('NOT_FOUND');
    expect(refused(await decide(shop, yesTo(shop, quote), 'mechanic')).code).toBe('FORBIDDEN');
    expect(await counts(shop)).toEqual({ decisions: 0, orders: 0, items: 0 });
  });

  it('is refused for an older revision, a draft, and after the last day', async () => {
    const shop = await makeShop(api);
    const tasks = tasksOf(await makeTasks(shop, 1));
    const today = new Date().toISOString().slice(0, 10);
    const unsent = quoted(await draft(shop, { ...forOwner(shop), tasks, expiresOn: today }));
    expect(refused(await decide(shop, yesTo(shop, unsent)))).toMatchObject({
      code: 'AGAINST_RULE',
      message: expect.stringContaining('not sent'),
    });
    const quote = quoted(
      await send(shop, { quoteId: unsent.id, revision: 1, channel: 'in_person' }),
    );
    ahead = 1;
    const lapsed = refused(await decide(shop, yesTo(shop, quote)));
    expect(lapsed.code).toBe('AGAINST_RULE');
    expect(lapsed.message).toContain(`held until ${today}`);
    const list = await shop.as<{ quotes: { nodes: { state: string }[] } }>(
      'front_desk',
      '{ quotes { nodes: edges { node { state } } } }',
    );
    expect(JSON.stringify(list.data)).toContain('lapsed');
    // They had said yes on the last day; it is only written down now.
    const said = new Date(Date.now() - 1000).toISOString();
    expect(quoted(await decide(shop, yesTo(shop, quote, { decidedAt: said }))).state).toBe(
      'accepted',
    );
    ahead = 0;

    const revised = await sentQuote(shop, { tasks });
    quoted(await revise(shop, { quoteId: revised.id, fromRevision: 1, tasks }));
    expect(refused(await decide(shop, yesTo(shop, revised)))).toMatchObject({
      code: 'CONFLICT',
      message: expect.stringMatching(/at revision 2.*revision 1/),
    });
  });

  it('is refused with a bad ceiling, time or text', async () => {
    const shop = await makeShop(api);
    const quote = await sentQuote(shop);
    const bad: [Record<string, unknown>, string][] = [
      [{ ceiling: '-1' }, 'ceiling'],
      [{ choice: 'not_now', ceiling: '5' }, 'ceiling'],
      [{ decidedAt: '2099-01-01T00:00:00Z' }, 'decidedAt'],
      [{ decidedAt: '2025-01-02T00:00:00Z' }, 'decidedAt'],
      [{ wordsShown: '  ' }, 'words shown'],
      [{ wordsShown: 'x'.repeat(4001) }, 'words shown'],
      [{ note: 'x'.repeat(2001) }, 'note'],
    ];
    for (const [over, field] of bad)
      expect(refused(await decide(shop, yesTo(shop, quote, over)))).toMatchObject({
        code: 'BAD_INPUT',
        field,
      });
    expect(await counts(shop)).toEqual({ decisions: 0, orders: 0, items: 0 });
    expect(
      quoted(await decide(shop, yesTo(shop, quote, { ceiling: '0' }))).newest.decisions[0]?.ceiling,
    ).toBe('0');
  });
});

describe("the owner's other answers", () => {
  it('"talk to me first" leaves the offer open, "not now" closes it, and a new revision opens it again', async () => {
    const shop = await makeShop(api);
    const tasks = tasksOf(await makeTasks(shop, 1));
    const quote = await sentQuote(shop, { tasks });
    expect(quoted(await decide(shop, yesTo(shop, quote, { choice: 'talk_first' }))).state).toBe(
      'sent',
    );
    expect(
      quoted(await decide(shop, yesTo(shop, quote, { choice: 'talk_first' }))).newest.decisions,
    ).toHaveLength(1);
    expect(quoted(await decide(shop, yesTo(shop, quote, { choice: 'not_now' }))).state).toBe(
      'declined',
    );
    expect(refused(await decide(shop, yesTo(shop, quote)))).toMatchObject({
      code: 'CONFLICT',
      message: expect.stringContaining('Test Owner said not now, by telephone'),
    });
    expect(await counts(shop)).toEqual({ decisions: 2, orders: 0, items: 0 });
    quoted(await revise(shop, { quoteId: quote.id, fromRevision: 1, tasks }));
    const again = quoted(await send(shop, { quoteId: quote.id, revision: 2, channel: 'email' }));
    expect(quoted(await decide(shop, yesTo(shop, again))).state).toBe('accepted');
    expect((await counts(shop)).orders).toBe(1);
  });
});

describe("the owner's yes to a finding", () => {
  const offer = async (shop: TestShop, findingId: string, title: string) =>
    sentQuote(shop, {
      findingId: gid('Finding', findingId),
      tasks: tasksOf(await makeTasks(shop, 2, { title })),
    });

  it('adds its correction to the order that it was found on, after what is there', async () => {
    const shop = await makeShop(api);
    const { order, finding } = await makeFinding(shop);
    const quote = await offer(shop, finding.id, 'Replace the collector');
    expect(quote.title).toBe('Grey streak at the collector');
    expect(quoted(await decide(shop, yesTo(shop, quote))).state).toBe('accepted');
    expect(await counts(shop)).toEqual({ decisions: 1, orders: 1, items: 3 });
    const items = await shop.inside((tx) =>
      tx.workItem.findMany({ where: { orderId: order.id }, orderBy: { position: 'asc' } }),
    );
    expect(items.map(({ position, title, findingId }) => [position, title, findingId])).toEqual([
      [1, 'Inspect the exhaust', null],
      [2, 'Replace the collector', finding.id],
      [3, 'Replace the collector', finding.id],
    ]);
  });

  it('given to two findings at once keeps their items apart; a finding is agreed once', async () => {
    const shop = await makeShop(api);
    const { order, finding } = await makeFinding(shop);
    const second = await shop.inside(async (tx) => {
      const { number: _, id: __, shopId: ___, ...same } = finding;
      const made = await tx.finding.create({
        data: { ...same, number: 2, clientEventId: crypto.randomUUID() },
      });
      await tx.findingEvent.create({
        data: {
          findingId: made.id,
          kind: 'assessed',
          class: 'discrepancy',
          byId: shop.people.inspector.id,
        },
      });
      return made;
    });
    const [one, two, three] = [
      await offer(shop, finding.id, 'One'),
      await offer(shop, second.id, 'Two'),
      await offer(shop, finding.id, 'Three'),
    ];
    const answers = await Promise.all([
      decide(shop, yesTo(shop, one)),
      decide(shop, yesTo(shop, two)),
    ]);
    expect(answers.map((answer) => quoted(answer).state)).toEqual(['accepted', 'accepted']);
    const items = await shop.inside((tx) =>
      tx.workItem.findMany({
        where: { orderId: order.id },
        orderBy: { position: 'asc' },
        select: { position: true },
      }),
    );
    expect(items.map(({ position }) => position)).toEqual([1, 2, 3, 4, 5]);
    expect(refused(await decide(shop, yesTo(shop, three)))).toMatchObject({
      code: 'AGAINST_RULE',
      message: expect.stringContaining('agreed already'),
    });
  });

  it('is refused once its order is over, and so is a draft', async () => {
    const shop = await makeShop(api);
    const { order, finding } = await makeFinding(shop);
    const quote = await offer(shop, finding.id, 'Late');
    await shop.inside((tx) =>
      tx.orderEvent.create({ data: { orderId: order.id, kind: 'released', outcome: 'airworthy' } }),
    );
    expect(refused(await decide(shop, yesTo(shop, quote)))).toMatchObject({
      code: 'AGAINST_RULE',
      message: expect.stringContaining('released'),
    });
    expect(
      refused(
        await draft(shop, {
          ...forOwner(shop),
          findingId: gid('Finding', finding.id),
          tasks: tasksOf(await makeTasks(shop, 1)),
        }),
      ).code,
    ).toBe('AGAINST_RULE');
    expect((await counts(shop)).decisions).toBe(0);
  });
});
