import { keepOrderCharge } from '../../books/queries.ts';
import { allow, type Context } from '../../context.ts';
import { notFound, Refused } from '../../errors.ts';
import { givenText } from '../../given.ts';
import { shopToday } from '../../today.ts';
import { outsideForChange } from './outside-for-change.ts';

export interface BillOutsideInput {
  jobId: string;
  /** Number of the other shop's bill. */
  reference: string;
  /** Net, minor units. */
  cost: bigint;
  /** Mark-up on it, per cent; null: none. */
  percent: string | null;
  /** The charge of the quote that it is part of; null: it is charged on top. */
  quoteLineId: string | null;
}

/** Keeps what another shop bills, once, and charges it with its mark-up; or says that a charge of the quote is for it, which is firm. */
export async function billOutside(context: Context, input: BillOutsideInput): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'manager');
  const reference = givenText(input.reference, 'reference', { least: 1, most: 60 });
  const { cost, percent, quoteLineId } = input;
  if (cost <= 0n)
    throw new Refused(
      'BAD_INPUT',
      `A bill of ${cost} minor units was refused: needed is more than 0.`,
      'cost',
    );
  if (quoteLineId !== null && percent !== null)
    throw new Refused(
      'BAD_INPUT',
      'A mark-up was given for what the quote charges already: that price is firm. Leave it out.',
      'percent',
    );
  const today = await shopToday(context);
  const now = context.now();
  return context.write(async (tx) => {
    // load
    const job = await outsideForChange(tx, input.jobId);
    // decide
    if (job.bills.length > 0)
      throw new Refused(
        'CONFLICT',
        `${job.name} is billed already: take its charge back first where it is wrong.`,
      );
    const { orderId } = job.item;
    if (quoteLineId !== null) {
      const line = await tx.quoteLine.findFirst({
        where: {
          id: quoteLineId,
          charge: 'outside_work',
          revision: { quote: { orderId }, decisions: { some: { choice: 'go_ahead' } } },
        },
        select: { id: true },
      });
      if (!line) throw notFound('agreed charge for outside work on its order');
    }
    // save
    const wanted = {
      ...{ kind: 'outside_work' as const, title: `${job.what}, by ${job.vendor}`.slice(0, 200) },
      ...{ price: null, cost, percent, atMost: null },
    };
    const chargeId =
      quoteLineId === null
        ? await keepOrderCharge(tx, { orderId, wanted, today, now, personId })
        : null;
    await tx.outsideBill.create({
      data: {
        jobId: job.id,
        reference,
        costMinor: cost,
        chargeId,
        quoteLineId,
        at: now,
        byId: personId,
      },
      select: { id: true },
    });
    return job.id;
  });
}
