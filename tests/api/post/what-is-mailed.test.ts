/** What goes by mail besides a quote: an issued invoice, an answer on the owner's page, an invitation. */
import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { keepsTheRules } from '../../support/e-invoice-rules.ts';
import { type MailServer, startMailServer } from '../../support/mail-server.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { bill, draft, makeSold, release } from '../books/billing.ts';
import { answer, linkTo, offerOf, pageAt } from '../owner/owner-shop.ts';
import {
  draft as draftQuote,
  forOwner,
  makeTasks,
  quoted,
  send,
  tasksOf,
} from '../quoting/quoting-shop.ts';
import { post, settings, settled, withWorker } from './post-shop.ts';

let api: TestApi;
let server: MailServer;
beforeAll(async () => {
  api = await startApi();
  server = await startMailServer();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await server.close();
  await api.stop();
});

const arrivedAt = (address: string) => server.arrived.filter(({ to }) => to.includes(address));
const address = { addressLine1: 'Hangar 2', city: 'Ebbsay', country: 'US' };

async function invoiced(over: Parameters<typeof makeShop>[1] = {}) {
  const shop = await makeShop(api, over);
  const visit = await makeSold(shop, {
    lines: [
      {
        title: '100-hour inspection',
        pricing: 'fixed',
        likelyMinor: 124_000n,
        unitPrice: '1240',
        taxRate: '4',
      },
    ],
    ceiling: 140_000n,
    items: [{ line: 0, seconds: 3600 }],
  });
  await shop.inside((tx) =>
    tx.contact.updateMany({ data: { ...address, email: `payer-${shop.shopId}@strand.example` } }),
  );
  await release(shop, visit);
  const { id } = await draft(shop, visit);
  return { shop, id, payer: `payer-${shop.shopId}@strand.example` };
}
const sendInvoice = async (
  shop: TestShop,
  invoiceId: string,
  role: Parameters<TestShop['as']>[0] = 'front_desk',
) => {
  const { data, errors } = await shop.as<{
    done: { code?: string; message?: string; state?: string };
  }>(
    role,
    'mutation($input: SendInvoiceInput!) { done: sendInvoice(input: $input) { ... on Mail { state } ... on Refusal { code message } } }',
    { input: { invoiceId } },
  );
  return data?.done ?? errors;
};

it('an issued invoice goes to who pays as PDF and as e-invoice; a draft does not, nor does it go twice while it waits', async () => {
  const { shop, id, payer } = await invoiced({
    ...address,
    taxNumber: 'T-1',
    registrationNumber: 'R-1',
  });
  expect(await sendInvoice(shop, id)).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringContaining('draft'),
  });
  const { number } = await bill(shop, 'issueInvoice', { invoiceId: id });
  expect(await sendInvoice(shop, id, 'mechanic')).toMatchObject({ code: 'FORBIDDEN' });
  expect(await sendInvoice(shop, id)).toEqual({ state: 'waits' });
  expect(await sendInvoice(shop, id)).toMatchObject({ code: 'CONFLICT' });
  await withWorker(api, settings(server.port), () => settled(shop, 'sent'));
  const [arrived, ...more] = arrivedAt(payer);
  expect(more).toEqual([]);
  expect(arrived?.parsed.subject).toMatch(new RegExp(`^Invoice ${number}: QQ-`));
  expect(arrived?.parsed.text).toContain('Owed on it: 1,289.60 USD, by ');
  const [pdf, xml] = arrived?.parsed.attachments ?? [];
  expect([pdf?.contentType, xml?.contentType]).toEqual(['application/pdf', 'application/xml']);
  expect(xml?.filename).toBe(`invoice-${number}.xml`);
  keepsTheRules(xml?.content.toString() ?? '');
  // It has no private link, so its words are whole.
  const [mail] = await post(shop);
  expect(arrived?.parsed.text?.trim()).toBe(mail?.text);
});

it('where there can be no e-invoice, the PDF goes alone', async () => {
  const { shop, id, payer } = await invoiced();
  await bill(shop, 'issueInvoice', { invoiceId: id });
  expect(await sendInvoice(shop, id)).toEqual({ state: 'waits' });
  await withWorker(api, settings(server.port), () => settled(shop, 'sent'));
  expect(arrivedAt(payer)[0]?.parsed.attachments.map(({ contentType }) => contentType)).toEqual([
    'application/pdf',
  ]);
});

it('an answer on the owner’s page is told to the owner and to the desk, once each, as automatic mail', async () => {
  const shop = await makeShop(api);
  const [desk, owner] = [`desk-${shop.shopId}@shop.example`, `owner-${shop.shopId}@strand.example`];
  await shop.inside(async (tx) => {
    await tx.shop.updateMany({ data: { email: desk } });
    await tx.contact.updateMany({ data: { email: owner } });
  });
  const tasks = tasksOf(await makeTasks(shop, 1));
  const { id } = quoted(await draftQuote(shop, { ...forOwner(shop), tasks }));
  const quote = quoted(await send(shop, { quoteId: id, revision: 1, channel: 'telephone' }));
  const link = await linkTo(shop, { quoteId: quote.id });
  const offer = offerOf(await pageAt(api, link), quote);
  await answer(api, link, offer);
  await answer(api, link, offer);
  await withWorker(api, settings(server.port), () => settled(shop, 'sent'));
  for (const to of [desk, owner]) {
    const [mail, ...more] = arrivedAt(to);
    expect(more).toEqual([]);
    expect(mail?.parsed.text).toContain('Test Owner said go ahead up to');
    expect(mail?.parsed.text).toContain(offer.words.slice(0, 60));
    // RFC 3834, 5: so that no answering machine answers it.
    expect(mail?.parsed.headers.get('auto-submitted')).toBe('auto-generated');
    expect(mail?.raw).not.toContain(link.slice('/owner/'.length));
  }
  expect(await post(shop)).toHaveLength(2);
  expect((await post(shop)).every(({ queuedBy }) => queuedBy === null)).toBe(true);
});

it('an answer counts even where the addresses are none', async () => {
  const shop = await makeShop(api);
  await shop.inside((tx) => tx.contact.updateMany({ data: { email: 'by pigeon' } }));
  const tasks = tasksOf(await makeTasks(shop, 1));
  const { id } = quoted(await draftQuote(shop, { ...forOwner(shop), tasks }));
  const quote = quoted(await send(shop, { quoteId: id, revision: 1, channel: 'telephone' }));
  const link = await linkTo(shop, { quoteId: quote.id });
  const { location } = await answer(api, link, offerOf(await pageAt(api, link), quote));
  expect(location).toMatch(/#offer-/);
  expect(await post(shop)).toEqual([]);
});

it('an invitation goes to whom it is for; its link is the manager’s to see, and only while it is kept', async () => {
  const shop = await makeShop(api);
  const personId = globalId(
    'Person',
    (
      await shop.inside((tx) =>
        tx.person.create({
          data: { shopId: shop.shopId, name: 'New Hand', initials: 'NH', roles: ['mechanic'] },
        }),
      )
    ).id,
  );
  const email = `new-${shop.shopId}@shop.example`;
  const { data } = await shop.as<{ done: { path?: string; message?: string } }>(
    'manager',
    'mutation($input: InvitePersonInput!) { done: invitePerson(input: $input) { ... on Invitation { path } ... on Refusal { message } } }',
    { input: { personId, email, byMail: true } },
  );
  const path = data?.done.path ?? '';
  const secret = path.split('#')[1] ?? '';
  expect(secret).toMatch(/^[\w-]{43}$/);
  await withWorker(api, null, () => settled(shop, 'kept'));
  expect((await post(shop, 'front_desk'))[0]?.text).not.toContain(secret);
  const [kept] = await post(shop, 'manager');
  expect(kept?.text).toContain(`http://shop.test${path}`);
  const opened = await fetch(`${api.origin}/auth/invitation`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', origin: 'http://shop.test' },
    body: JSON.stringify({ secret }),
  });
  expect(await opened.json()).toMatchObject({ name: 'New Hand', email });
});
