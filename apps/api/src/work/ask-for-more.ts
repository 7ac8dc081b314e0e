import type { Tx } from '@fairlead/database';
import {
  type Currency,
  documentTotals,
  formatAmount,
  type InvoiceLine,
  type Minor,
  minor,
} from '@fairlead/money';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { holdFor } from '../hold.ts';
import { onOrder } from '../on-order.ts';
import { expiryOf, holdQuote, sayAmount } from '../quoting/index.ts';
import { type PriceList, priceList } from '../quoting/queries.ts';
import { orderFacts, orderState, quoteFacts, quoteState } from '../states.ts';
import { shopToday } from '../today.ts';
import { beyondAuthority, writeOffFacts } from './beyond-authority.ts';
import { beyondOnOrder } from './beyond-with-part.ts';
import { costFacts, costSoFar } from './cost-so-far.ts';
import { priceUnder } from './price-of-work.ts';
import { agreedFacts, agreedOf, cutOf, inTurn } from './queries.ts';

export interface AskForMoreInput {
  orderId: string;
  /** Net, minor units; null: what is past authority now, with what is on order. */
  amount: bigint | null;
}

const MOST = 1_000_000_000_000n;

/**
 * Drafts the request for more than an owner agreed to for the work that is there: a quote of its own with one line, which opens no
 * work and is never billed as such; a yes to it raises the ceiling. What was asked and not agreed is its next revision. Asked the
 * same again while it is open, it is the same.
 *
 * @returns the id of the quote, which is sent like any other
 */
export async function askForMore(context: Context, input: AskForMoreInput): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'manager');
  const today = await shopToday(context);
  const now = context.now();
  const { orderId } = input;
  const asked = await lastAsked(context.read, orderId);
  return context.write(async (tx) => {
    // load
    if (asked) await holdQuote(tx, asked.id);
    await holdFor(tx, 'order', orderId);
    const { order, past, price } = await pastOf(tx, orderId, { today, now });
    const open = await lastAsked(tx, orderId);
    // decide
    const amount = input.amount ?? past;
    refuseAmount(amount, { number: order.number, code: price.currency });
    const contactId = await whoIsAsked(tx, order);
    const [newest] = open?.revisions ?? [];
    const state = open && quoteState(open, today);
    if (open && newest && (state === 'draft' || state === 'sent') && newest.likelyMinor === amount)
      return open.id;
    // save
    const prices = await priceList(tx, price.currency, today, {
      contactId,
      aircraftId: order.aircraftId,
    });
    const again = open && state !== 'accepted' ? open : null;
    const { id: quoteId } =
      again ??
      (await tx.quote.create({
        data: {
          ...{ aircraftId: order.aircraftId, contactId, orderId, more: true, createdAt: now },
          title: `More for order ${order.number}, ${order.title}`.slice(0, 200),
        },
        select: { id: true },
      }));
    const said = `On order ${order.number} up to ${sayAmount(agreedOf(order), price.currency)} are agreed. This asks for ${sayAmount(amount, price.currency)} more, before tax, for the work and parts that are on it. Only what is worked and fitted is billed.`;
    await saveAsked(tx, {
      ...{ quoteId, revision: (again?.revisions[0]?.revision ?? 0) + 1, amount: minor(amount) },
      ...{ prices, terms: said, draftedById: personId, draftedAt: now, today },
    });
    return quoteId;
  });
}

const lastAsked = (read: Tx, orderId: string) =>
  read.quote.findFirst({
    where: { orderId, more: true },
    orderBy: { number: 'desc' },
    select: {
      id: true,
      revisions: {
        ...quoteFacts.revisions,
        select: { ...quoteFacts.revisions.select, revision: true, likelyMinor: true },
      },
    },
  });

/** An order that goes on or waits for its bill, and how far it is past authority with what is on the way to it. */
async function pastOf(tx: Tx, orderId: string, { today, now }: { today: Date; now: Date }) {
  const price = await priceUnder(tx, today);
  const order = await tx.workOrder.findUnique({
    where: { id: orderId },
    select: {
      ...{ number: true, title: true, aircraftId: true },
      ...agreedFacts,
      ...costFacts,
      writeOffs: writeOffFacts,
    },
  });
  const facts = await tx.workOrder.findUnique({ where: { id: orderId }, select: orderFacts });
  if (!order || !facts) throw notFound('order');
  const state = orderState(facts);
  if (state === 'cancelled' || state === 'closed')
    throw new Refused(
      'AGAINST_RULE',
      `Order ${order.number} is ${state}: nothing more is asked for on it.`,
    );
  const beyond = beyondAuthority(order, costSoFar(order, price, now), price.overrun) ?? 0n;
  const coming = beyondOnOrder(order, await onOrder(tx, orderId), price, now) ?? 0n;
  return { order, price, past: beyond + coming };
}

function refuseAmount(amount: bigint, { number, code }: { number: number; code: Currency }): void {
  if (amount === 0n)
    throw new Refused(
      'AGAINST_RULE',
      `Nothing on order ${number} is past what was agreed: say how much more is to be asked for.`,
      'amount',
    );
  if (amount < 0n || amount > MOST)
    throw new Refused(
      'BAD_INPUT',
      `${sayAmount(amount, code)} was to be asked for: needed is more than 0 and at most ${sayAmount(MOST, code)}.`,
      'amount',
    );
}

/** Whoever said yes last, of the owner of now; else the owner. */
async function whoIsAsked(
  tx: Tx,
  order: Parameters<typeof cutOf>[0] & {
    number: number;
    aircraftId: string;
    quotes: readonly { id: string }[];
  },
): Promise<string> {
  const said = await tx.decision.findMany({
    where: {
      choice: 'go_ahead',
      revision: { quoteId: { in: order.quotes.map(({ id }) => id) } },
    },
    orderBy: { decidedAt: 'desc' },
    select: { contactId: true, decidedAt: true },
  });
  const here = inTurn({ after: cutOf(order), until: null });
  const last = said.find(({ decidedAt }) => here({ at: decidedAt }));
  if (last) return last.contactId;
  const owner = await tx.aircraftContact.findFirst({
    where: { aircraftId: order.aircraftId, capacity: 'owner', until: null },
    select: { contactId: true },
  });
  if (!owner)
    throw new Refused(
      'AGAINST_RULE',
      `Nobody of order ${order.number} could be asked: its aircraft has no owner. Add one to its contacts.`,
    );
  return owner.contactId;
}

interface Asked {
  quoteId: string;
  revision: number;
  amount: Minor;
  prices: PriceList;
  terms: string;
  draftedById: string;
  draftedAt: Date;
  today: Date;
}

async function saveAsked(tx: Tx, asked: Asked): Promise<void> {
  const { amount, prices, today, ...kept } = asked;
  const tax = prices.taxOf('labour');
  const { taxTotal } = documentTotals({
    currency: prices.currency,
    lines: [
      {
        ...{ id: 'more', quantity: '1', unitPrice: formatAmount(amount, prices.currency) },
        ...{ taxCategory: tax.code as InvoiceLine['taxCategory'], taxRate: tax.rate },
      },
    ],
  });
  const amounts = { lowMinor: amount, likelyMinor: amount, p80Minor: amount, highMinor: amount };
  const { id: revisionId } = await tx.quoteRevision.create({
    data: {
      ...{ ...kept, ...amounts, currency: prices.currency, expiresOn: expiryOf(null, today) },
      ...{ taxMinor: taxTotal, hoursP10: 0, hoursP50: 0, hoursMean: 0, hoursP80: 0, hoursP90: 0 },
    },
    select: { id: true },
  });
  await tx.quoteLine.create({
    data: {
      ...{ revisionId, position: 1, pricing: 'time_and_materials', category: 'labour' },
      ...{ title: 'Past what was agreed: work and parts as they come', ...amounts },
      ...{ taxCode: tax.code, taxRate: tax.rate, quantity: '1' },
      unitPrice: formatAmount(amount, prices.currency),
    },
    select: { id: true },
  });
}
