import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop } from '../../support/shop.ts';
import {
  decide,
  draft,
  forOwner,
  gid,
  makeFinding,
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

describe('sending', () => {
  it('is recorded once, however often it is sent', async () => {
    const shop = await makeShop(api);
    const { id } = quoted(
      await draft(shop, { ...forOwner(shop), tasks: tasksOf(await makeTasks(shop, 1)) }),
    );
    const input = { quoteId: id, revision: 1, channel: 'email' };
    const answers = (
      await Promise.all([
        send(shop, input),
        send(shop, input),
        send(shop, { ...input, channel: 'telephone' }),
      ])
    ).map(quoted);
    expect(new Set(answers.map(({ newest }) => newest.sentAt)).size).toBe(1);
    const again = quoted(await send(shop, input));
    expect(again).toMatchObject({ state: 'sent', newest: { sentAt: answers[0]?.newest.sentAt } });
    expect(await shop.inside((tx) => tx.quoteSending.count())).toBe(1);
  });

  it("is refused for an older revision, one that is not there, another shop's quote, and the wrong person", async () => {
    const [shop, other] = [await makeShop(api), await makeShop(api)];
    const tasks = tasksOf(await makeTasks(shop, 1));
    const { id } = quoted(await draft(shop, { ...forOwner(shop), tasks }));
    quoted(await revise(shop, { quoteId: id, fromRevision: 1, tasks }));
    for (const revision of [1, 3, 0, -1]) {
      const { code, message } = refused(
        await send(shop, { quoteId: id, revision, channel: 'email' }),
      );
      expect([
        code,
        message.includes('at revision 2'),
        message.includes(`revision ${revision}`),
      ]).toEqual(['CONFLICT', true, true]);
    }
    expect(refused(await send(other, { quoteId: id, revision: 2, channel: 'email' })).code).toBe(
      'NOT_FOUND',
    );
    expect(
      refused(await send(shop, { quoteId: id, revision: 2, channel: 'email' }, 'mechanic')).code,
    ).toBe('FORBIDDEN');
    expect(await shop.inside((tx) => tx.quoteSending.count())).toBe(0);
  });

  it('is refused after the last day of the offer, with both dates', async () => {
    const shop = await makeShop(api);
    const today = new Date().toISOString().slice(0, 10);
    const { id } = quoted(
      await draft(shop, {
        ...forOwner(shop),
        tasks: tasksOf(await makeTasks(shop, 1)),
        expiresOn: today,
      }),
    );
    ahead = 1;
    const { code, message } = refused(
      await send(shop, { quoteId: id, revision: 1, channel: 'email' }),
    );
    ahead = 0;
    expect(code).toBe('AGAINST_RULE');
    expect(message).toContain(`held until ${today}`);
  });

  it('of a finding waits until somebody entitled has assessed it', async () => {
    const shop = await makeShop(api);
    const { finding } = await makeFinding(shop, { assessed: null });
    const { id } = quoted(
      await draft(shop, {
        ...forOwner(shop),
        findingId: gid('Finding', finding.id),
        tasks: tasksOf(await makeTasks(shop, 1)),
      }),
    );
    expect(refused(await send(shop, { quoteId: id, revision: 1, channel: 'email' }))).toMatchObject(
      { code: 'AGAINST_RULE', message: expect.stringContaining('not assessed') },
    );
    await shop.inside((tx) =>
      tx.findingEvent.create({
        data: {
          findingId: finding.id,
          kind: 'assessed',
          class: 'unairworthy',
          byId: shop.people.inspector.id,
        },
      }),
    );
    expect(quoted(await send(shop, { quoteId: id, revision: 1, channel: 'email' })).state).toBe(
      'sent',
    );
  });
});

describe('revising', () => {
  it("adds the next number at today's prices and leaves the earlier revision as it was", async () => {
    const shop = await makeShop(api);
    const part = await makePart(shop, { unitPrice: '10' });
    const quote = await sentQuote(shop, {
      tasks: tasksOf(await makeTasks(shop, 2)),
      terms: 'Cash.',
    });
    await shop.inside((tx) =>
      tx.labourRate.create({
        data: {
          shopId: shop.shopId,
          kind: 'mechanic',
          rate: '110.50',
          validFrom: new Date('2025-06-01'),
        },
      }),
    );
    const more = tasksOf(await makeTasks(shop, 1, { title: 'Another' }));
    const revised = quoted(
      await revise(shop, {
        quoteId: quote.id,
        fromRevision: 1,
        tasks: more,
        parts: [{ partId: gid('Part', part.id), quantity: '1' }],
      }),
    );
    expect(revised).toMatchObject({
      id: quote.id,
      number: quote.number,
      state: 'draft',
      newest: { revision: 2, sentAt: null, terms: 'Cash.' },
    });
    expect(revised.revisions.map(({ revision }) => revision)).toEqual([2, 1]);
    expect(revised.newest.lines.map(({ title, unitPrice }) => [title, unitPrice])).toEqual([
      ['Another', '110.5'],
      ['Test gasket', '10'],
    ]);
    const before = await shop.as<{
      node: { revisions: { revision: number; high: string; lines: { title: string }[] }[] };
    }>(
      'front_desk',
      'query ($id: ID!) { node(id: $id) { ... on Quote { revisions { revision high lines { title } } } } }',
      { id: quote.id },
    );
    expect(before.data?.node.revisions[1]).toMatchObject({
      revision: 1,
      high: quote.newest.high,
      lines: [{ title: 'Task 1' }, { title: 'Task 2' }],
    });
  });

  it('is refused from any revision but the newest, naming both, also when two come at once', async () => {
    const shop = await makeShop(api);
    const tasks = tasksOf(await makeTasks(shop, 1));
    const { id } = quoted(await draft(shop, { ...forOwner(shop), tasks }));
    const both = await Promise.all([
      revise(shop, { quoteId: id, fromRevision: 1, tasks }),
      revise(shop, { quoteId: id, fromRevision: 1, tasks }),
    ]);
    expect(both.map((answer) => answer.__typename).sort()).toEqual(['Quote', 'Refusal']);
    const stale = refused(await revise(shop, { quoteId: id, fromRevision: 1, tasks }));
    expect(stale).toMatchObject({
      code: 'CONFLICT',
      field: 'fromRevision',
      message: expect.stringMatching(/at revision 2.*revision 1/),
    });
    expect(refused(await revise(shop, { quoteId: id, fromRevision: 9, tasks })).code).toBe(
      'CONFLICT',
    );
    expect(await shop.inside((tx) => tx.quoteRevision.count())).toBe(2);
  });

  it("is refused for no lines, another shop's quote, the wrong person, and what is agreed", async () => {
    const [shop, other] = [await makeShop(api), await makeShop(api)];
    const tasks = tasksOf(await makeTasks(shop, 1));
    const quote = await sentQuote(shop, { tasks });
    expect(
      refused(await revise(shop, { quoteId: quote.id, fromRevision: 1, tasks: [] })).code,
    ).toBe('BAD_INPUT');
    expect(
      refused(
        await revise(other, {
          quoteId: quote.id,
          fromRevision: 1,
          tasks: tasksOf(await makeTasks(other, 1)),
        }),
      ).code,
    ).toBe('NOT_FOUND');
    expect(
      refused(await revise(shop, { quoteId: quote.id, fromRevision: 1, tasks }, 'inspector')).code,
    ).toBe('FORBIDDEN');
    quoted(await decide(shop, yesTo(shop, quote)));
    expect(
      refused(await revise(shop, { quoteId: quote.id, fromRevision: 1, tasks })),
    ).toMatchObject({
      code: 'AGAINST_RULE',
      message: expect.stringContaining('Test Owner said go ahead'),
    });
    expect(await shop.inside((tx) => tx.quoteRevision.count())).toBe(1);
  });
});
