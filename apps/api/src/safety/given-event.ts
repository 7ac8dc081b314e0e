import type { Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { clientId, deviceTime } from '../work/index.ts';

/** What every fact of this subject comes with, so that a device may keep it and send it later, and twice. */
export interface GivenEvent {
  /** When it happened, by the clock of the device; null: now. */
  at: Date | null;
  /** Made by the device. */
  clientEventId: string;
}

/** The time and the device's id of a fact, checked. */
export function givenEvent(
  { at, clientEventId }: GivenEvent,
  context: Context,
): { at: Date; clientEventId: string } {
  const now = context.now();
  return {
    at: at ? deviceTime(at, now, 'at') : now,
    clientEventId: clientId(clientEventId),
  };
}

/** The same fact sent twice counts once: answers whether it is there, and refuses somebody else's id. */
export function sentBefore<Known extends { byId: string }>(
  known: Known | null,
  personId: string,
): known is Known {
  if (known && known.byId !== personId)
    throw new Refused(
      'CONFLICT',
      'Something of somebody else has this clientEventId already: needed is a new one.',
      'clientEventId',
    );
  return known !== null;
}
