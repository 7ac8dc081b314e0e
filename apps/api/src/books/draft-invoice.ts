import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { sayDay } from '../given.ts';
import { holdFor } from '../hold.ts';
import { billOrder } from './bill-order.ts';

/** Drafts the invoice of an order from what was agreed, clocked and issued. A draft that is there is replaced. */
export async function draftInvoice(
  context: Context,
  { orderId }: { orderId: string },
): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'manager');

  // load
  const { order, composed, contactId, currency, today } = await billOrder(context, orderId);

  // decide
  const { lines, ...amounts } = composed;
  if (lines.length === 0)
    throw new Refused(
      'AGAINST_RULE',
      `There is nothing to bill on order ${order.number}: nothing was sold at a fixed price, clocked or issued.`,
    );
  if (!contactId)
    throw new Refused(
      'AGAINST_RULE',
      `${order.aircraft.registration} has no payer, no quote and no owner on ${sayDay(today)}: add whoever pays to its contacts.`,
    );

  // save
  return context.write(async (tx) => {
    await holdFor(tx, 'invoices of order', order.id);
    const standing = await tx.invoice.findFirst({
      where: {
        orderId: order.id,
        creditsId: null,
        OR: [
          { issuedAt: null },
          { creditNotes: { none: { issuedAt: { not: null }, inPart: false } } },
        ],
      },
      select: { id: true, number: true, issuedAt: true },
    });
    if (standing?.issuedAt)
      throw new Refused(
        'CONFLICT',
        `Order ${order.number} is billed already, with invoice ${standing.number}: credit that first.`,
      );
    const data = {
      ...amounts,
      contactId,
      currency,
      draftedAt: context.now(),
      draftedById: personId,
    };
    const { id: invoiceId } = standing
      ? await tx.invoice.update({ where: { id: standing.id }, data, select: { id: true } })
      : await tx.invoice.create({ data: { orderId: order.id, ...data }, select: { id: true } });
    await tx.invoiceLine.deleteMany({ where: { invoiceId } });
    await tx.invoiceLine.createMany({ data: lines.map((line) => ({ ...line, invoiceId })) });
    return invoiceId;
  });
}
