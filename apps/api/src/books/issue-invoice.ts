import type { Tx } from '@fairlead/database';
import { currency, formatMoney, minor } from '@fairlead/money';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { sayDay } from '../given.ts';
import { shopToday } from '../today.ts';
import { billOrder, holdBilling } from './bill-order.ts';
import type { LineData } from './compose-invoice.ts';
import { setDepositsAgainst } from './set-deposits-against.ts';
import type { SharedInvoice } from './share-out.ts';

export interface IssueInvoiceInput {
  invoiceId: string;
  /** Left out: 30 days on (common practice, no source). */
  dueOn: Date | null;
}

const DAY = 86_400_000;
const HOLDS_DAYS = 30;
const MOST_DAYS = 366;

/** Issues a draft for good, with those of the order's other payers: the database gives the numbers. Issued before, it answers with what was issued. */
export async function issueInvoice(context: Context, input: IssueInvoiceInput): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'manager');

  // load
  const draft = await context.read.invoice.findUnique({
    where: { id: input.invoiceId },
    select: { id: true, orderId: true, saleId: true, issuedAt: true },
  });
  if (!draft) throw notFound('invoice');
  if (draft.issuedAt) return draft.id;
  const { saleId } = draft;
  const today = await shopToday(context);

  // decide
  const issuedAt = context.now();
  const dueOn = input.dueOn ?? new Date(today.getTime() + HOLDS_DAYS * DAY);
  if (dueOn < today || dueOn.getTime() > today.getTime() + MOST_DAYS * DAY)
    throw new Refused(
      'BAD_INPUT',
      `dueOn is ${sayDay(dueOn)}: needed is a day from ${sayDay(today)} to ${MOST_DAYS} days on.`,
      'dueOn',
    );
  return context.write(async (tx) => {
    // Reckoned while nothing of it can change: what it says is what was worked, issued and charged when it was issued.
    await holdBilling(tx, draft.orderId);
    const bill = await billOrder(tx, { ...draft, today, now: issuedAt });
    const { order, state, shared, turn, currency: code } = bill;
    // A seller is billed to date, whatever is still open on the aircraft.
    if (saleId === null && state !== 'released' && state !== 'closed')
      throw new Refused(
        'AGAINST_RULE',
        `The invoice of order ${order.number} cannot be issued: ${order.aircraft.registration} is not released. It is issued when the work is signed for.`,
      );
    // save
    // All of an order's, or none: what is left of one bill when a part of it is issued is no bill any more.
    const drafts = await tx.$queryRaw<Draft[]>`
      SELECT id, net_minor, gross_minor, payer_share_id FROM invoice
      WHERE shop_id = current_shop() AND order_id = ${draft.orderId}::uuid AND sale_id IS NOT DISTINCT FROM ${saleId}::uuid AND issued_at IS NULL AND credits_id IS NULL
      ORDER BY payer_share_id NULLS FIRST FOR UPDATE`;
    if (!drafts.some(({ id }) => id === draft.id)) return issuedMeanwhile(tx, draft.id);
    const say = (amount: bigint) => `${formatMoney(minor(amount), currency(code))} ${code}`;
    const now = (of: string | null) => shared.find(({ payerShareId }) => payerShareId === of);
    for (const held of drafts) {
      const comesTo = now(held.payer_share_id);
      if (held.net_minor !== comesTo?.netMinor || held.gross_minor !== comesTo.grossMinor)
        throw new Refused(
          'CONFLICT',
          `The draft says ${say(held.gross_minor)} and the work now comes to ${say(comesTo?.grossMinor ?? 0n)}: draft it again and look at what changed.`,
        );
    }
    if (await linesDiffer(tx, drafts, now))
      throw new Refused(
        'CONFLICT',
        `The draft of order ${order.number} comes to the same sum with other lines than the work now: draft it again and look at what changed.`,
      );
    if (drafts.length < shared.length)
      throw new Refused(
        'CONFLICT',
        `Order ${order.number} has ${shared.length} payers and ${drafts.length} drafts: draft it again and look at what changed.`,
      );
    for (const { id, gross_minor: grossMinor, payer_share_id: share } of drafts)
      if (share === null)
        await setDepositsAgainst(tx, {
          ...{ orderId: draft.orderId, invoiceId: id, currency: code },
          ...{ grossMinor, now: issuedAt, personId, turn },
        });
    // The last statements: until they commit, other invoices wait for their number.
    for (const { id } of drafts)
      await tx.invoice.update({
        where: { id },
        data: { issuedAt, issuedById: personId, dueOn },
        select: { id: true },
      });
    return draft.id;
  });
}

interface Draft {
  id: string;
  net_minor: bigint;
  gross_minor: bigint;
  payer_share_id: string | null;
}

/** What a line is of: a sum that is alike does not say that the same was billed. */
const said = (line: Pick<LineData, 'position' | 'title' | 'netMinor' | 'itemId' | 'lotId'>) =>
  [line.position, line.title, line.netMinor, line.itemId ?? '', line.lotId ?? ''].join(' ');

async function linesDiffer(
  tx: Tx,
  drafts: readonly Draft[],
  now: (of: string | null) => SharedInvoice | undefined,
): Promise<boolean> {
  const lines = await tx.invoiceLine.findMany({
    where: { invoiceId: { in: drafts.map(({ id }) => id) } },
    orderBy: { position: 'asc' },
    select: {
      ...{ invoiceId: true, position: true, title: true },
      ...{ netMinor: true, itemId: true, lotId: true },
    },
  });
  return drafts.some(({ id, payer_share_id: share }) => {
    const held = lines.filter(({ invoiceId }) => invoiceId === id).map(said);
    return held.join('\n') !== now(share)?.lines.map(said).join('\n');
  });
}

/** Somebody was quicker: what they issued; or it was drafted away. */
async function issuedMeanwhile(tx: Tx, id: string): Promise<string> {
  const known = await tx.invoice.findUnique({ where: { id }, select: { id: true } });
  if (!known) throw notFound('invoice');
  return known.id;
}
