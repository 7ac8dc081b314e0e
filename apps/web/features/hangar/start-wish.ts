import { wallOf } from '../../lib/shop-time.ts';
import type { CarryState } from './carry-store.ts';
import type { Floor } from './floor-documents.ts';
import { OFF, type Wish } from './save-place.ts';
import { momentOf, plannedEnd } from './standing.ts';

interface Drawn {
  floor: Floor;
  /** The row that is drawn; null is now. */
  row: number | null;
  timeZone: string;
  /** Whether this person plans; a mechanic says what has been done. */
  plans: boolean;
}

const inDays = (from: string, days: number) =>
  new Date(Date.parse(from) + days * 86_400_000).toISOString();

/** The form as it opens from its button: nothing chosen, tomorrow morning to the day after. */
export function emptyWish(when: Wish['when'], { floor, timeZone }: Drawn): Wish {
  const wall = (days: number, time: string) =>
    `${wallOf(inDays(floor.asOf, days), timeZone).slice(0, 10)}T${time}`;
  return {
    aircraftId: '',
    to: '',
    when,
    from: wall(1, '08:00'),
    until: wall(2, '16:00'),
    orderId: '',
    plan: null,
    seenVersion: '',
  };
}

/**
 * The form as it opens after an aircraft was let go: what was done with the hand, at the moment that is drawn. A plan
 * keeps its days unless the row of another day is drawn; what stands is taken as moved now, unless the stand is taken.
 */
export function wishOf(
  { what: { aircraft, stay }, target }: Extract<CarryState, { step: 'put' }>,
  drawn: Drawn,
): Wish {
  const { floor, row, timeZone, plans } = drawn;
  const empty = emptyWish('now', drawn);
  const plan = stay?.kind === 'planned' ? stay : null;
  const then = row === null || floor.coming[row]?.late ? null : momentOf(floor, row);
  const wall = (instant: string) => wallOf(instant, timeZone);
  const later = (plan ?? (target.kind === 'stand' && target.stand.stay)) ? 'planned' : 'now';
  const end = stay === null ? null : (plan?.endsAt ?? plannedEnd(floor, stay));
  const from = plan ? wall(plan.startsAt) : then ? wall(then) : empty.from;
  const until = end && Date.parse(end) > Date.parse(then ?? floor.asOf) ? wall(end) : null;
  return {
    ...empty,
    aircraftId: aircraft.id,
    to: target.kind === 'door' ? OFF : target.stand.id,
    when: plans && (then !== null || later === 'planned') ? 'planned' : 'now',
    from,
    until: until && until > from ? until : twoDaysAfter(from),
    orderId: stay?.order?.id ?? '',
    plan,
    seenVersion: aircraft.floorVersion,
  };
}

/** By the wall clock, whatever the clocks do in between. */
const twoDaysAfter = (wallClock: string) => inDays(`${wallClock}:00.000Z`, 2).slice(0, 16);
