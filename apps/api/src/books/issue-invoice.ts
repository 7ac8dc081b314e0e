import { currency, formatMoney, minor } from '@fairlead/money';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { sayDay } from '../given.ts';
import { billOrder } from './bill-order.ts';
import { setDepositsAgainst } from './set-deposits-against.ts';

export interface IssueInvoiceInput {
  invoiceId: string;
  /** Left out: 30 days on (common practice, no source). */
  dueOn: Date | null;
}

const DAY = 86_400_000;
const HOLDS_DAYS = 30;
const MOST_DAYS = 366;

/** Issues a draft for good: the database gives the number. Issued before, it answers with what was issued. */
export async function issueInvoice(context: Context, input: IssueInvoiceInput): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'manager');

  // load
  const draft = await context.read.invoice.findUnique({
    where: { id: input.invoiceId },
    select: { id: true, orderId: true, issuedAt: true },
  });
  if (!draft) throw notFound('invoice');
  if (draft.issuedAt) return draft.id;
  const { order, state, composed, today, currency: code } = await billOrder(context, draft.orderId);

  // decide
  const issuedAt = context.now();
  const dueOn = input.dueOn ?? new Date(today.getTime() + HOLDS_DAYS * DAY);
  if (dueOn < today || dueOn.getTime() > today.getTime() + MOST_DAYS * DAY)
    throw new Refused(
      'BAD_INPUT',
      `dueOn is ${sayDay(dueOn)}: needed is a day from ${sayDay(today)} to ${MOST_DAYS} days on.`,
      'dueOn',
    );
  if (state !== 'released' && state !== 'closed')
    throw new Refused(
      'AGAINST_RULE',
      `The invoice of order ${order.number} cannot be issued: ${order.aircraft.registration} is not released. It is issued when the work is signed for.`,
    );

  // save
  return context.write(async (tx) => {
    const [held] = await tx.$queryRaw<
      { issued: boolean; net_minor: bigint; gross_minor: bigint }[]
    >`
      SELECT issued_at IS NOT NULL AS issued, net_minor, gross_minor FROM invoice WHERE shop_id = current_shop() AND id = ${draft.id}::uuid FOR UPDATE`;
    if (!held) throw notFound('invoice');
    if (held.issued) return draft.id;
    const say = (amount: bigint) => `${formatMoney(minor(amount), currency(code))} ${code}`;
    if (held.net_minor !== composed.netMinor || held.gross_minor !== composed.grossMinor)
      throw new Refused(
        'CONFLICT',
        `The draft says ${say(held.gross_minor)} and the work now comes to ${say(composed.grossMinor)}: draft it again and look at what changed.`,
      );
    await setDepositsAgainst(tx, {
      ...{ orderId: draft.orderId, invoiceId: draft.id, currency: code },
      ...{ grossMinor: held.gross_minor, now: issuedAt, personId },
    });
    // The last statement: until it commits, other invoices wait for their number.
    await tx.invoice.update({
      where: { id: draft.id },
      data: { issuedAt, issuedById: personId, dueOn },
      select: { id: true },
    });
    return draft.id;
  });
}
