import type { FindingClass } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { holdFor } from '../hold.ts';
import { type Device, momentOf } from './device-moment.ts';
import { type GivenSighting, keptAnswers } from './diagnosis/given-sighting.ts';
import { atMost, clientId, MOST_PHOTOS, text } from './limits.ts';

export interface NoteFindingInput {
  orderId: string;
  itemId: string | null;
  title: string;
  words: string;
  /** A zone of the aircraft's side view, by its name. */
  zone: string;
  class: FindingClass;
  photoIds: readonly string[];
  /** What the finder sees, in the terms of a symptom, where they said so. */
  sighting?: GivenSighting | null | undefined;
  foundAt: Date;
  clientEventId: string;
  device?: Device | null;
}

/** Notes what somebody found, with its class as they see it. The same one sent twice is noted once. */
export async function noteFinding(context: Context, input: NoteFindingInput): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const title = text(input.title, 'title', { least: 3, most: 200 });
  const words = text(input.words, 'words', { most: 4000 });
  const zone = text(input.zone, 'zone', { most: 80 });
  const moment = momentOf(input.foundAt, input.device, context.now(), 'foundAt');
  const clientEventId = clientId(input.clientEventId);
  const sighting = input.sighting ?? null;
  const answers = sighting && keptAnswers(sighting, 'sighting');
  const photoIds = [...new Set(atMost(input.photoIds, 'photoIds', MOST_PHOTOS))];

  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'findings of order', input.orderId);
    const known = await tx.finding.findFirst({
      where: { clientEventId },
      select: { id: true, foundById: true },
    });
    if (known?.foundById === personId) return known.id;
    if (known)
      throw new Refused(
        'CONFLICT',
        'Somebody else’s finding has this clientEventId already: needed is a new one.',
        'clientEventId',
      );
    const order = await tx.workOrder.findUnique({
      where: { id: input.orderId },
      select: {
        id: true,
        number: true,
        aircraft: { select: { registration: true } },
        events: { select: { kind: true } },
      },
    });
    if (!order) throw notFound('order');
    const happened = order.events.map(({ kind }) => kind);
    if (happened.includes('cancelled'))
      throw new Refused(
        'AGAINST_RULE',
        `Order ${order.number} was cancelled: note the finding on the order that the aircraft is here for.`,
        'orderId',
      );
    // A telephone that was away may send a finding after the release; nobody finds anything before the arrival.
    if (!happened.includes('arrived'))
      throw new Refused(
        'AGAINST_RULE',
        `${order.aircraft.registration} has not arrived for order ${order.number}: receive it first.`,
        'orderId',
      );
    const item = input.itemId
      ? await tx.workItem.findUnique({ where: { id: input.itemId }, select: { orderId: true } })
      : null;
    if (input.itemId && !item) throw notFound('item');
    if (item && item.orderId !== order.id)
      throw new Refused(
        'BAD_INPUT',
        `The item is of another order than ${order.number}: needed is one of that order, or none.`,
        'itemId',
      );
    if ((await tx.photo.count({ where: { id: { in: photoIds } } })) !== photoIds.length)
      throw notFound('photo');
    // decide
    const { _max } = await tx.finding.aggregate({
      where: { orderId: order.id },
      _max: { number: true },
    });
    // save
    const made = await tx.finding.create({
      data: {
        orderId: order.id,
        number: (_max.number ?? 0) + 1,
        itemId: input.itemId,
        title,
        words,
        zone,
        provisionalClass: input.class,
        foundAt: moment.at,
        deviceAt: moment.deviceAt,
        deviceId: moment.deviceId,
        foundById: personId,
        clientEventId,
      },
      select: { id: true },
    });
    await tx.findingPhoto.createMany({
      data: photoIds.map((photoId, index) => ({
        findingId: made.id,
        photoId,
        position: index + 1,
      })),
    });
    if (sighting && answers)
      await tx.findingSighting.create({
        data: {
          findingId: made.id,
          symptom: sighting.symptom,
          answers,
          at: moment.at,
          byId: personId,
          clientEventId,
        },
      });
    return made.id;
  });
}
