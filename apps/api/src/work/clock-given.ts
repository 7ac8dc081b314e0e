import { Refused } from '../errors.ts';
import { type Device, type Moment, momentOf } from './device-moment.ts';
import { clientId } from './limits.ts';

export interface ClockInput {
  kind: 'start' | 'switch' | 'stop';
  itemId: string | null;
  /** By the clock of the device. */
  at: Date;
  clientEventId: string;
  device?: Device | null;
  /** Under whose supervision; null: by themselves. */
  supervisedById?: string | null;
}

/** An event as it is recorded, but for whose it is. */
export type ClockEventGiven = Moment &
  Pick<ClockInput, 'kind' | 'itemId' | 'clientEventId'> & {
    readonly supervisedById: string | null;
  };

/** Checks each by itself, the last first: what one device says to lie ahead counts as now, and still in its order. */
export function givenEvents(
  inputs: readonly ClockInput[],
  now: Date,
): (ClockEventGiven | Refused)[] {
  let latest = now;
  return inputs
    .toReversed()
    .map((input) => {
      try {
        const event = eventOf(input, now, latest);
        if (event.deviceId !== null && +event.at === +latest) latest = new Date(+latest - 1);
        return event;
      } catch (error) {
        if (error instanceof Refused) return error;
        throw error;
      }
    })
    .reverse();
}

function eventOf({ kind, itemId, ...input }: ClockInput, now: Date, latest: Date): ClockEventGiven {
  const moment = momentOf(input.at, input.device, input.device ? latest : now);
  if (kind !== 'stop' && !itemId)
    throw new Refused(
      'BAD_INPUT',
      `A ${kind} was given without an item: needed is itemId, the item that the clock goes to.`,
      'itemId',
    );
  return {
    kind,
    itemId,
    clientEventId: clientId(input.clientEventId),
    // Supervision begins with the work; a stop needs none.
    supervisedById: kind === 'stop' ? null : (input.supervisedById ?? null),
    ...moment,
  };
}
