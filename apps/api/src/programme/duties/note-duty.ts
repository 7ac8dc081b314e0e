import type { DutyKind, Tx } from '@fairlead/database';
import { allow, type Context } from '../../context.ts';
import { notFound, Refused } from '../../errors.ts';
import { givenText, sayMinute } from '../../given.ts';
import { holdFor } from '../../hold.ts';

export interface NoteDutyInput {
  orderId: string;
  kind: DutyKind;
  /** Which repair, alteration or defect. */
  words: string;
  /** Of a defect: when it was found. A form's hours run from the approval for return to service. */
  runsFrom: Date | null;
}

const HOUR = 3_600_000;
/** 14 CFR part 43, Appendix B (a)(3): within 48 hours. 14 CFR 145.221(a): within 96 hours. Instants: no clock change adds an hour. */
export const dutyHours: Record<DutyKind, number> = { major_form: 48, defect_report: 96 };

/** Notes that something is owed to the authority after work on an order, and by when. */
export async function noteDuty(context: Context, input: NoteDutyInput): Promise<string> {
  const { personId } = await allow(context, 'inspector', 'front_desk', 'manager');
  const words = givenText(input.words, 'words', { least: 3, most: 500 });
  const { orderId, kind } = input;
  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'order', orderId);
    const order = await tx.workOrder.findUnique({
      where: { id: orderId },
      select: {
        number: true,
        events: {
          where: { kind: 'released' },
          orderBy: { at: 'desc' },
          take: 1,
          select: { at: true, outcome: true },
        },
      },
    });
    if (!order) throw notFound('order');
    // decide
    const [released] = order.events;
    if (kind === 'defect_report') await refuseWithoutStation(tx);
    if (kind === 'major_form' && released?.outcome !== 'airworthy')
      throw new Refused(
        'AGAINST_RULE',
        `The 48 hours of the form run from the approval for return to service (14 CFR part 43, Appendix B), and order ${order.number} is not approved: note it when it is.`,
        'orderId',
      );
    const runsFrom = (kind === 'major_form' ? released?.at : input.runsFrom) ?? context.now();
    if (runsFrom > context.now())
      throw new Refused(
        'BAD_INPUT',
        `Found at ${sayMinute(runsFrom)} was refused: it is ${sayMinute(context.now())} now.`,
        'runsFrom',
      );
    const known = await tx.duty.findFirst({
      where: { orderId, kind, words },
      select: { id: true },
    });
    if (known) return known.id;
    // save
    const { id } = await tx.duty.create({
      data: {
        ...{ orderId, kind, words, runsFrom, at: context.now(), byId: personId },
        dueAt: new Date(runsFrom.getTime() + dutyHours[kind] * HOUR),
      },
      select: { id: true },
    });
    return id;
  });
}

async function refuseWithoutStation(tx: Tx): Promise<void> {
  const { standing } = await tx.shop.findFirstOrThrow({ select: { standing: true } });
  if (standing !== 'repair_station')
    throw new Refused(
      'AGAINST_RULE',
      'The report within 96 hours is asked of repair stations (14 CFR 145.221), and this shop works on its mechanics’ certificates.',
      'kind',
    );
}
