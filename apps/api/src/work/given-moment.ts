import type { Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { clientId, deviceTime } from './limits.ts';

/** What a fact comes with that a device may keep and send later, and twice. */
export interface GivenMoment {
  /** When it happened, by the shop's clock as the device knows it; null: now. */
  at: Date | null;
  /** Made by the device; null: it is sent once. */
  clientEventId: string | null;
}

/** When a fact counts from, and under which id, checked. */
export function givenMoment(
  { at, clientEventId }: GivenMoment,
  context: Context,
): { at: Date; clientEventId: string | null } {
  const now = context.now();
  return {
    // A device's clock may be a little ahead of the shop's; nothing happened after it was told of.
    at: at ? new Date(Math.min(deviceTime(at, now, 'at').getTime(), now.getTime())) : now,
    clientEventId: clientEventId === null ? null : clientId(clientEventId),
  };
}

/** Whether it is recorded: the same one sent twice counts once. Refuses an id under which something else came. */
export function cameBefore(known: { byId: string } | null, personId: string, same: boolean) {
  if (known && (known.byId !== personId || !same))
    throw new Refused(
      'CONFLICT',
      'Something else has this clientEventId already: needed is a new one.',
      'clientEventId',
    );
  return known !== null;
}
