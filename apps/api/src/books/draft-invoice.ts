import type { Tx } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { holdFor } from '../hold.ts';
import { billOrder } from './bill-order.ts';
import type { WorkToBill } from './work-to-bill.ts';

/** Drafts the invoice of an order from what was agreed, clocked and issued. A draft that is there is replaced. */
export async function draftInvoice(
  context: Context,
  { orderId }: { orderId: string },
): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'manager');

  // load
  const { order, composed, currency, today } = await billOrder(context, orderId);

  // decide
  const { lines, ...amounts } = composed;
  if (lines.length === 0)
    throw new Refused(
      'AGAINST_RULE',
      `There is nothing to bill on order ${order.number}: nothing was sold at a fixed price, clocked or issued.`,
    );

  // save
  return context.write(async (tx) => {
    await holdFor(tx, 'invoices of order', order.id);
    const standing = await tx.invoice.findFirst({
      where: {
        orderId: order.id,
        creditsId: null,
        OR: [{ issuedAt: null }, { creditNotes: { none: { issuedAt: { not: null } } } }],
      },
      select: { id: true, number: true, issuedAt: true },
    });
    if (standing?.issuedAt)
      throw new Refused(
        'CONFLICT',
        `Order ${order.number} is billed already, with invoice ${standing.number}: credit that first.`,
      );
    const contactId = await whoPays(tx, order, today);
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

/** The aircraft's payer; else whoever was given the quote for the visit; else its owner. */
async function whoPays(tx: Tx, { aircraft, quotes }: WorkToBill, day: Date): Promise<string> {
  const standing = await tx.aircraftContact.findMany({
    where: {
      aircraftId: aircraft.id,
      since: { lte: day },
      OR: [{ until: null }, { until: { gte: day } }],
    },
    orderBy: { since: 'desc' },
    select: { contactId: true, capacity: true },
  });
  const as = (capacity: 'payer' | 'owner') =>
    standing.find((contact) => contact.capacity === capacity)?.contactId;
  const quoted = (quotes.find(({ findingId }) => findingId === null) ?? quotes[0])?.contactId;
  const contactId = as('payer') ?? quoted ?? as('owner');
  if (!contactId)
    throw new Refused(
      'AGAINST_RULE',
      `${aircraft.registration} has no payer, no quote and no owner on ${day.toISOString().slice(0, 10)}: add whoever pays to its contacts.`,
    );
  return contactId;
}
