import type { ItemEventKind, Prisma, Tx } from '@fairlead/database';
import { Refused } from '../errors.ts';
import { type Device, type Moment, momentOf } from './device-moment.ts';
import type { ItemForChange } from './item-for-change.ts';
import { clientId } from './limits.ts';

/** Something noted about an item that a device sends later. */
export interface Noted {
  at: Date;
  clientEventId: string;
  device: Device;
}

/** When it counts, and under which id, if a device gave one. */
export type NotedMoment = Moment & { readonly clientEventId: string | null };

export function notedMoment(noted: Noted | null | undefined, now: Date): NotedMoment {
  if (!noted) return { at: now, deviceAt: null, deviceId: null, clientEventId: null };
  const clientEventId = clientId(noted.clientEventId, 'noted.clientEventId');
  return { ...momentOf(noted.at, noted.device, now, 'noted.at'), clientEventId };
}

/** Whether it was recorded before: then whoever sends it again is answered as at first, whatever happened since. */
export async function isRecorded(
  tx: Tx,
  { clientEventId }: NotedMoment,
  itemId: string,
  personId: string,
): Promise<boolean> {
  if (clientEventId === null) return false;
  const known = await tx.itemEvent.findFirst({
    where: { clientEventId },
    select: { itemId: true, byId: true },
  });
  if (known && (known.itemId !== itemId || known.byId !== personId))
    throw new Refused(
      'CONFLICT',
      'Something else has this clientEventId already: needed is a new one.',
      'noted.clientEventId',
    );
  return known !== null;
}

/**
 * Appends what happened to an item. What comes late counts from when it happened, but never before what the shop had
 * recorded of the item by then: what was decided in between was decided without knowing it.
 */
export async function appendItemEvent(
  tx: Tx,
  item: ItemForChange,
  byId: string,
  { at, ...device }: NotedMoment,
  what: { kind: ItemEventKind } & Partial<Prisma.ItemEventUncheckedCreateInput>,
): Promise<void> {
  const last = item.events.at(-1)?.at.getTime() ?? Number.NEGATIVE_INFINITY;
  const counts = device.clientEventId === null ? at : new Date(Math.max(at.getTime(), last + 1));
  await tx.itemEvent.create({
    data: { ...what, ...device, itemId: item.id, byId, at: counts },
    select: { id: true },
  });
}
