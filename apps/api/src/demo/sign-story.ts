import type { DemoOrder } from '../../../../prisma/demo/data.ts';
import { draftInvoice } from '../books/draft-invoice.ts';
import { issueInvoice } from '../books/issue-invoice.ts';
import { owedFacts, owedOf } from '../books/owed.ts';
import { recordPayment } from '../books/record-payment.ts';
import type { Context } from '../context.ts';
import { loadEntry, prepare } from '../records/prepare.ts';
import { releaseAircraft } from '../records/release-aircraft.ts';
import { signEntry } from '../records/sign-entry.ts';
import { shopToday } from '../today.ts';
import type { Act } from './play.ts';
import type { Props } from './story.ts';

/** The end of a visit: entries signed book by book, the aircraft released, the invoice issued and paid. */
export function endActs(order: DemoOrder, props: Props): Act[] {
  const { release, invoice } = order;
  const orderId = () => props.orders.of(order.key);
  const acts: Act[] = [];
  if (release) {
    const { outcome, books } = release;
    acts.push({
      at: props.clock.at(release.at),
      by: release.by,
      does: async (context) => {
        for (const book of books)
          await sign(context, {
            orderId: orderId(),
            bookId: props.books.of(`${order.aircraft} ${book}`),
            outcome,
          });
        await releaseAircraft(context, { orderId: orderId(), outcome });
      },
    });
  }
  if (!invoice) return acts;
  const bill: Act = {
    at: props.clock.at(invoice.issued),
    by: invoice.by,
    does: async (context) => {
      const invoiceId = await draftInvoice(context, { orderId: orderId() });
      await issueInvoice(context, { invoiceId, dueOn: null });
      props.invoices.set(order.key, invoiceId);
    },
  };
  const payments = invoice.payments.map(
    ({ at, how }): Act => ({
      at: props.clock.at(at),
      by: invoice.by,
      does: async (context) => {
        const issued = await context.read.invoice.findUniqueOrThrow({
          where: { id: props.invoices.of(order.key) },
          select: { id: true, ...owedFacts },
        });
        await recordPayment(context, {
          invoiceId: issued.id,
          amount: owedOf(issued),
          method: how,
          paidAt: null,
          clientEventId: null,
        });
      },
    }),
  );
  return [...acts, bill, ...payments];
}

/** Reads the entry as it stands and signs just that. */
async function sign(
  context: Context,
  {
    outcome,
    ...place
  }: { orderId: string; bookId: string; outcome: 'airworthy' | 'not_airworthy_list_given' },
): Promise<void> {
  const asked = { ...place, outcome, extent: null, leaveOut: [], correctsId: null, reason: null };
  const today = await shopToday(context);
  const { entry, signer } = await prepare(
    context.read,
    await loadEntry(context.read, asked, today),
    context.viewer?.personId ?? '',
    today,
  );
  if (entry.text === null)
    throw new RangeError(
      `An entry of the demo lacks ${entry.missing.map(({ what }) => what).join('; ')}`,
    );
  await signEntry(context, { ...asked, signature: signer.name, text: entry.text, again: null });
}
