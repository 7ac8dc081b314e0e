import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { type GivenEvent, givenEvent, sentBefore } from './given-event.ts';
import { visitForChange } from './visit-for-change.ts';

export interface TakeOverInput extends GivenEvent {
  handOverId: string;
}

/** Takes over what somebody left, once: by whoever goes on with it, who may be the same person. */
export async function takeOver(context: Context, input: TakeOverInput): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const given = givenEvent(input, context);
  return context.write(async (tx) => {
    // load
    const left = await tx.handOver.findUnique({
      where: { id: input.handOverId },
      select: { id: true, orderId: true },
    });
    if (!left) throw notFound('hand-over');
    await visitForChange(tx, left.orderId);
    const known = await tx.takeOver.findFirst({
      where: { clientEventId: given.clientEventId },
      select: { handOverId: true, byId: true },
    });
    if (sentBefore(known, personId)) return known.handOverId;
    const taken = await tx.takeOver.findFirst({
      where: { handOverId: left.id },
      select: { byId: true, by: { select: { name: true } } },
    });
    // decide
    if (taken?.byId === personId) return left.id;
    if (taken)
      throw new Refused(
        'CONFLICT',
        `${taken.by.name} has taken this over already: speak to them before you go on with it.`,
      );
    // save
    await tx.takeOver.create({
      data: { handOverId: left.id, byId: personId, ...given },
      select: { id: true },
    });
    return left.id;
  });
}
