import type { Role } from '@fairlead/database';
import type { TestApi } from '../../support/api.ts';
import type { TestShop } from '../../support/shop.ts';
import {
  gid,
  makeFinding,
  makeTasks,
  type Quote,
  sentQuote,
  tasksOf,
} from '../quoting/quoting-shop.ts';

/** What a page says of one offer, as far as the tests read it. */
export interface ShownOffer {
  id: string;
  number: number;
  state: string;
  revision: number;
  likely: string;
  high: string;
  words: string;
  digest: string;
  finding: number | null;
  lines: { title: string; why: string | null }[];
  foretold: { sentence: string; findings: { title: string; sentence: string }[] } | null;
  changed: { since: number; sentences: string[] } | null;
  decisions: { choice: string; by: string; ceiling: string | null; channel: string }[];
}
export interface Page {
  note: string | null;
  you: { name: string | null; limit: string | null };
  aircraft: { registration: string };
  cautions: string[];
  offers: ShownOffer[];
  order: {
    state: string;
    items: { title: string; state: string; waitingFor: string | null }[];
    findings: { number: number; class: string; meaning: string; photos: { id: string }[] }[];
    invoices: { net: string; quoted: string | null; difference: { amount: string }[] }[];
  } | null;
}

/** The answer to makeOwnerLink: an address, or a refusal. */
export async function askForLink(
  shop: TestShop,
  input: Record<string, unknown>,
  role: Role = 'front_desk',
) {
  const answer = await shop.as<{
    made: { url?: string; expiresAt?: string; code?: string; message?: string };
  }>(
    role,
    `mutation($input: MakeOwnerLinkInput!) { made: makeOwnerLink(input: $input) {
      ... on Refusal { code message } ... on MadeOwnerLink { url expiresAt } } }`,
    { input: { contactId: gid('Contact', shop.contactId), ...input } },
  );
  if (!answer.data) throw new Error(JSON.stringify(answer));
  return answer.data.made;
}

/** The path of a new link. */
export async function linkTo(shop: TestShop, input: Record<string, unknown>): Promise<string> {
  const { url, message } = await askForLink(shop, input);
  if (!url) throw new Error(message ?? 'no link');
  return url;
}

/** An order under way with an assessed finding, priced and sent, and a link to it. */
export async function offeredFinding(shop: TestShop) {
  const { order, finding } = await makeFinding(shop);
  const quote = await sentQuote(
    shop,
    {
      findingId: gid('Finding', finding.id),
      tasks: tasksOf(await makeTasks(shop, 1, { title: 'Replace the collector' })),
    },
    'telephone',
  );
  const link = await linkTo(shop, { orderId: gid('WorkOrder', order.id) });
  return { order, finding, quote, link };
}

export async function pageAt(api: TestApi, path: string): Promise<Page> {
  const response = await fetch(`${api.origin}${path}`);
  if (response.status !== 200) throw new Error(`${response.status}: ${await response.text()}`);
  return (await response.json()) as Page;
}

/** Sends the page's form as a browser does, and reads the page that it leads back to. */
export async function answer(
  api: TestApi,
  path: string,
  offer: Pick<ShownOffer, 'id' | 'revision' | 'digest'>,
  over: Record<string, string> = {},
) {
  const response = await fetch(`${api.origin}${path}/decisions`, {
    method: 'POST',
    redirect: 'manual',
    headers: { 'sec-fetch-site': 'same-origin', origin: 'null' },
    body: new URLSearchParams({
      quote: offer.id,
      revision: `${offer.revision}`,
      shown: offer.digest,
      choice: 'go_ahead',
      ceiling: '',
      ...over,
    }),
  });
  return { status: response.status, location: response.headers.get('location') ?? '' };
}

/** What stands in the database of a shop's decisions and of the work that they opened. */
export const kept = (shop: TestShop) =>
  shop.inside(async (tx) => ({
    decisions: await tx.decision.count(),
    orders: await tx.workOrder.count(),
    items: await tx.workItem.count(),
  }));

export const offerOf = ({ offers }: Page, quote: Pick<Quote, 'number'>): ShownOffer => {
  const offer = offers.find(({ number }) => number === quote.number);
  if (!offer) throw new Error(`the page has no offer ${quote.number}`);
  return offer;
};
