import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import {
  gid,
  makeFinding,
  makeTasks,
  quoted,
  revise,
  send,
  sentQuote,
  tasksOf,
} from '../quoting/quoting-shop.ts';
import { answer, kept, linkTo, offeredFinding, offerOf, pageAt } from './owner-shop.ts';

let api: TestApi;
let shop: TestShop;
beforeAll(async () => {
  api = await startApi();
  shop = await makeShop(api);
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

/** The sentence that the page shows after a refused answer. */
async function noteAfter({ location }: { location: string }): Promise<string> {
  const { note } = await pageAt(api, location);
  if (note === null) throw new Error(`no sentence at ${location}`);
  return note;
}

describe("the owner's answer on their own page", () => {
  it('is kept with the very words shown, opens the work, and is audited and chained', async () => {
    const { quote, link, finding } = await offeredFinding(shop);
    const offer = offerOf(await pageAt(api, link), quote);
    expect(offer.words).toContain('we found: Grey streak at the collector. It is cracked.');
    const sent = await answer(api, link, offer);
    expect(sent).toEqual({ status: 303, location: `${link}#offer-${quote.number}` });

    const decision = await shop.inside((tx) =>
      tx.decision.findFirstOrThrow({ orderBy: { recordedAt: 'desc' } }),
    );
    expect(decision).toMatchObject({
      choice: 'go_ahead',
      channel: 'owner_page',
      contactId: shop.contactId,
      wordsShown: offer.words,
      ceilingMinor: BigInt(offer.high),
      recordedById: null,
    });
    const [correction] = await shop.inside((tx) =>
      tx.workItem.findMany({ where: { findingId: finding.id } }),
    );
    expect(correction?.title).toBe('Replace the collector');
    const audited = await shop.inside((tx) =>
      tx.audit.findMany({ where: { tableName: 'decision', rowId: decision.id } }),
    );
    expect(audited).toMatchObject([{ action: 'insert', personId: null }]);
    expect(await shop.inside((tx) => tx.$queryRaw`SELECT * FROM chain_faults()`)).toEqual([]);
    expect(
      await shop.inside((tx) => tx.chainLink.count({ where: { subjectId: decision.id } })),
    ).toBe(1);
    const after = offerOf(await pageAt(api, link), quote);
    expect(after.state).toBe('accepted');
    expect(after.decisions).toMatchObject([
      { choice: 'go_ahead', by: 'Test Owner', channel: 'owner_page', ceiling: offer.high },
    ]);
  });

  it('goes as far as the ceiling that they type, and an amount that is none is refused', async () => {
    const { quote, link } = await offeredFinding(shop);
    const offer = offerOf(await pageAt(api, link), quote);
    for (const typed of ['all of it', '-5', '12.345', '1e9']) {
      const before = await kept(shop);
      expect(await noteAfter(await answer(api, link, offer, { ceiling: typed }))).toContain(typed);
      expect(await kept(shop)).toEqual(before);
    }
    await answer(api, link, offer, { ceiling: '1,240.50' });
    expect(offerOf(await pageAt(api, link), quote).decisions).toMatchObject([
      { ceiling: '124050' },
    ]);
  });

  it('counts once when it is sent twice, also at the same moment', async () => {
    const { quote, link } = await offeredFinding(shop);
    const offer = offerOf(await pageAt(api, link), quote);
    const before = await kept(shop);
    const sent = await Promise.all([1, 2, 3].map(() => answer(api, link, offer)));
    for (const { location } of sent) expect(location).toBe(`${link}#offer-${quote.number}`);
    const after = await kept(shop);
    expect(after.decisions - before.decisions).toBe(1);
    expect(after.items - before.items).toBe(1);
  });

  it('stands against a second person, who is told whose answer came first', async () => {
    const { quote, link, order } = await offeredFinding(shop);
    const second = await shop.inside(async (tx) => {
      const contact = await tx.contact.create({
        data: { shopId: shop.shopId, name: 'Second Owner' },
      });
      await tx.aircraftContact.create({
        data: {
          aircraftId: shop.aircraftId,
          contactId: contact.id,
          capacity: 'operator',
          since: new Date('2025-01-01'),
        },
      });
      return contact;
    });
    const other = await linkTo(shop, {
      orderId: gid('WorkOrder', order.id),
      contactId: gid('Contact', second.id),
    });
    const offer = offerOf(await pageAt(api, other), quote);
    await answer(api, link, offer, { choice: 'not_now' });
    const before = await kept(shop);
    const note = await noteAfter(await answer(api, other, offer));
    expect(note).toMatch(/answered already: Test Owner said not now, on the owner's page/);
    expect(await kept(shop)).toEqual(before);
    expect(offerOf(await pageAt(api, other), quote).decisions).toMatchObject([
      { by: 'Test Owner', choice: 'not_now' },
    ]);
  });

  it('to an older revision is refused; the page says what changed and shows the new one', async () => {
    const { quote, link } = await offeredFinding(shop);
    const old = offerOf(await pageAt(api, link), quote);
    const next = quoted(
      await revise(shop, {
        quoteId: quote.id,
        fromRevision: 1,
        tasks: tasksOf(
          await makeTasks(shop, 1, { title: 'Replace collector and gasket', standardHours: '5' }),
        ),
      }),
    );
    const before = await kept(shop);
    // Drafted, not sent: the owner still sees the old one, which can no longer be accepted.
    expect(await noteAfter(await answer(api, link, old))).toMatch(/is changing offer \d+ just now/);
    await send(shop, { quoteId: quote.id, revision: next.newest.revision, channel: 'telephone' });
    const stale = await answer(api, link, old);
    expect(stale.status).toBe(303);
    const page = await pageAt(api, stale.location);
    expect(page.note).toMatch(
      /has changed offer \d+ since you opened the page. It is at revision 2/,
    );
    const now = offerOf(page, quote);
    expect(now.revision).toBe(2);
    expect(now.changed?.since).toBe(1);
    expect(now.changed?.sentences.join(' ')).toMatch(
      /Added: Replace collector and gasket.* Left out: Replace the collector\. Altogether likely/,
    );
    expect(await kept(shop)).toEqual(before);
    expect((await answer(api, link, now)).location).toBe(`${link}#offer-${quote.number}`);
  });

  it('to words that were changed meanwhile is refused', async () => {
    const { quote, link, finding } = await offeredFinding(shop);
    const offer = offerOf(await pageAt(api, link), quote);
    await shop.inside((tx) =>
      tx.findingEvent.create({
        data: {
          findingId: finding.id,
          kind: 'assessed',
          class: 'discrepancy',
          meaning: 'It is only sooty.',
          byId: shop.people.inspector.id,
        },
      }),
    );
    expect(await noteAfter(await answer(api, link, offer))).toMatch(/Read it again, then answer/);
  });

  it('past what they may authorise is refused with the limit, and somebody without authority says no yes', async () => {
    const limited = await makeShop(api);
    await limited.inside((tx) =>
      tx.aircraftContact.updateMany({ data: { mayAuthoriseMinor: 10_000n } }),
    );
    const { quote, link } = await offeredFinding(limited);
    const page = await pageAt(api, link);
    expect(page.you).toEqual({ name: 'Test Owner', limit: '10000' });
    const note = await noteAfter(await answer(api, link, offerOf(page, quote)));
    expect(note).toMatch(/Test Owner may authorise up to 100\.00 USD/);
    expect((await kept(limited)).decisions).toBe(0);
    await answer(api, link, offerOf(page, quote), { ceiling: '100' });
    expect((await kept(limited)).decisions).toBe(1);
  });

  it('"talk to me first" leaves the offer open, and the desk sees it', async () => {
    const { quote, link } = await offeredFinding(shop);
    const offer = offerOf(await pageAt(api, link), quote);
    await answer(api, link, offer, { choice: 'talk_first' });
    const seen = await shop.as<{ node: { state: string; newest: { decisions: object[] } } }>(
      'front_desk',
      '{ node(id: "ID") { ... on Quote { state newest { decisions { choice channel } } } } }'.replace(
        'ID',
        quote.id,
      ),
    );
    expect(seen.data?.node).toEqual({
      state: 'sent',
      newest: { decisions: [{ choice: 'talk_first', channel: 'owner_page' }] },
    });
    await answer(api, link, offer);
    expect(offerOf(await pageAt(api, link), quote).state).toBe('accepted');
  });

  it('to a quote of another order is refused, and so is nonsense', async () => {
    const { link } = await offeredFinding(shop);
    const other = await offeredFinding(shop);
    const foreign = offerOf(await pageAt(api, other.link), other.quote);
    const before = await kept(shop);
    expect(await noteAfter(await answer(api, link, foreign))).toBe(
      'There is no such offer in this shop.',
    );
    expect(await noteAfter(await answer(api, link, { ...foreign, id: 'x' }))).toMatch(/not an id/);
    expect(
      await noteAfter(
        await answer(api, link, { ...foreign, id: gid('WorkOrder', other.order.id) }),
      ),
    ).toMatch(/needed is the id of a Quote/);
    expect(await noteAfter(await answer(api, other.link, foreign, { choice: 'whatever' }))).toMatch(
      /Choose one of/,
    );
    expect(await kept(shop)).toEqual(before);
  });

  it('from a foreign page is refused, and so is a note that the shop did not write', async () => {
    const { quote, link } = await offeredFinding(shop);
    const offer = offerOf(await pageAt(api, link), quote);
    const before = await kept(shop);
    for (const headers of [
      { 'sec-fetch-site': 'cross-site' },
      { origin: 'http://elsewhere.test' },
    ] as Record<string, string>[]) {
      const response = await fetch(`${api.origin}${link}/decisions`, {
        method: 'POST',
        redirect: 'manual',
        headers,
        body: new URLSearchParams({
          quote: offer.id,
          revision: '1',
          shown: offer.digest,
          choice: 'go_ahead',
        }),
      });
      expect(response.status).toBe(403);
    }
    expect(await kept(shop)).toEqual(before);
    expect((await pageAt(api, `${link}?note=Pay%20twice&seal=aaaa`)).note).toBeNull();
    const { location } = await answer(api, link, offer, { choice: 'x' });
    const elsewhere = await offeredFinding(shop);
    expect((await pageAt(api, location.replace(link, elsewhere.link))).note).toBeNull();
  });
});

it('a yes to the quote of a visit makes its order, and the same link reaches it', async () => {
  const quote = await sentQuote(shop);
  const link = await linkTo(shop, { quoteId: quote.id });
  const before = await pageAt(api, link);
  expect(before.order).toBeNull();
  expect(before.offers.map(({ number }) => number)).toEqual([quote.number]);
  await answer(api, link, offerOf(before, quote));
  const after = await pageAt(api, link);
  expect(after.order).toMatchObject({ state: 'planned', items: [{ state: 'open' }] });
});

it('a prefetched GET decides nothing and writes nothing', async () => {
  const { link } = await offeredFinding(shop);
  const before = await kept(shop);
  const rows = () => shop.inside((tx) => tx.audit.count());
  const audited = await rows();
  for (const path of [
    link,
    `${link}?choice=go_ahead`,
    `${link}/decisions`,
    `${link}/decisions?choice=go_ahead`,
  ])
    for (const method of ['GET', 'HEAD']) await fetch(`${api.origin}${path}`, { method });
  expect(await kept(shop)).toEqual(before);
  expect(await rows()).toBe(audited);
});

it('two orders of one aircraft keep apart', async () => {
  const one = await offeredFinding(shop);
  const other = await makeFinding(shop);
  const page = await pageAt(api, one.link);
  expect(page.order?.findings).toHaveLength(1);
  expect(page.offers).toHaveLength(1);
  expect(other.order.id).not.toBe(one.order.id);
});
