import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { sayDay } from '../given.ts';
import { shopToday } from '../today.ts';
import { billOrder, holdBilling } from './bill-order.ts';
import { refuseBilled } from './refuse-billed.ts';

/**
 * Drafts the invoices of an order from what was agreed, clocked and issued: one for each payer. Drafts that are there are
 * replaced.
 *
 * @returns the id of the customer's
 */
export async function draftInvoice(
  context: Context,
  { orderId, saleId = null }: { orderId: string; saleId?: string | null },
): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'manager');

  const today = await shopToday(context);
  const now = context.now();
  return context.write(async (tx) => {
    // load
    await holdBilling(tx, orderId);
    const bill = await billOrder(tx, { orderId, saleId, today, now });
    const { order, shared, contactId, currency } = bill;
    // decide
    await refuseBilled(tx, order.id, order.number, saleId);
    if (shared[0]?.lines.length === 0)
      throw new Refused(
        'AGAINST_RULE',
        `There is nothing to bill on order ${order.number}: nothing was sold at a fixed price, clocked or issued that is not at the shop's own cost.`,
      );
    if (!contactId)
      throw new Refused(
        'AGAINST_RULE',
        `${order.aircraft.registration} has no payer, no quote and no owner on ${sayDay(today)}: add whoever pays to its contacts.`,
      );

    // save
    const drafts = await tx.invoice.findMany({
      where: { orderId: order.id, saleId, creditsId: null, issuedAt: null },
      select: { id: true, payerShareId: true },
    });
    const gone = drafts.filter(
      ({ payerShareId }) => !shared.some((each) => each.payerShareId === payerShareId),
    );
    const goneIds = gone.map(({ id }) => id);
    await tx.invoiceLine.deleteMany({ where: { invoiceId: { in: goneIds } } });
    await tx.invoice.deleteMany({ where: { id: { in: goneIds } } });
    const ids: string[] = [];
    for (const { lines, ...amounts } of shared) {
      const data = {
        ...amounts,
        contactId: amounts.contactId ?? contactId,
        saleId,
        currency,
        draftedAt: now,
        draftedById: personId,
      };
      const known = drafts.find(({ payerShareId }) => payerShareId === amounts.payerShareId);
      const { id: invoiceId } = known
        ? await tx.invoice.update({ where: { id: known.id }, data, select: { id: true } })
        : await tx.invoice.create({ data: { orderId: order.id, ...data }, select: { id: true } });
      await tx.invoiceLine.deleteMany({ where: { invoiceId } });
      await tx.invoiceLine.createMany({ data: lines.map((line) => ({ ...line, invoiceId })) });
      ids.push(invoiceId);
    }
    return ids[0] ?? '';
  });
}
