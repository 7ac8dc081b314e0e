/** A clock event as it counts: its time is the corrected one where it was corrected. */
export interface ClockFact {
  /** Made by the device; decides between events of one instant, so that the order of arrival never does. */
  readonly clientEventId: string;
  readonly kind: 'start' | 'switch' | 'stop';
  /** A stop may leave it out: it then stops whatever runs. */
  readonly itemId: string | null;
  readonly at: Date;
  /** Under whose supervision somebody works from here on; null or left out: by themselves. */
  readonly supervisedById?: string | null;
}

/** Unbroken time of one person on one item. `endedAt` null: it still runs. */
export interface StretchOfTime {
  readonly itemId: string;
  readonly supervisedById: string | null;
  readonly startedAt: Date;
  readonly endedAt: Date | null;
}

/**
 * The stretches that follow from one person's clock events, in order; never two at once.
 *
 * - A start while another item runs is a switch; a switch with nothing running is a start; a start of what
 *   runs already changes nothing, unless somebody else supervises from there on.
 * - A stop ends whatever runs, whichever item it names: the person stopped. With nothing running it says nothing.
 * - Of events at one instant, stops of what ran before it come first, then starts by `clientEventId`, then the
 *   other stops: so "stop A, start B" leaves B running and "start A, stop A" leaves nothing.
 * - What lasted no time is no stretch.
 *
 * @param events of one person, in any order
 * @param running what ran when the first of the events happened; null: nothing
 * @example stretchesOf([{ clientEventId: '1', kind: 'start', itemId: 'a', at: new Date(0) }, { clientEventId: '2', kind: 'stop', itemId: 'a', at: new Date(60_000) }]) // → [{ itemId: 'a', supervisedById: null, startedAt: new Date(0), endedAt: new Date(60_000) }]
 */
export function stretchesOf(
  events: readonly ClockFact[],
  running: Omit<StretchOfTime, 'endedAt'> | null = null,
): StretchOfTime[] {
  const stretches: StretchOfTime[] = [];
  let now = running;
  const end = (at: Date) => {
    if (now && now.startedAt < at) stretches.push({ ...now, endedAt: at });
    now = null;
  };
  for (const { at, events: together } of byInstant(events)) {
    const ranBefore = now?.itemId ?? null;
    const endsThat = ({ kind, itemId }: ClockFact) =>
      kind === 'stop' && ranBefore !== null && (itemId === null || itemId === ranBefore);
    if (together.some(endsThat)) end(at);
    for (const { kind, itemId, supervisedById = null } of together) {
      if (kind === 'stop' || itemId === null) continue;
      if (now?.itemId === itemId && now.supervisedById === supervisedById) continue;
      end(at);
      now = { itemId, supervisedById, startedAt: at };
    }
    if (together.some((event) => event.kind === 'stop' && !endsThat(event))) end(at);
  }
  if (now) stretches.push({ ...now, endedAt: null });
  return stretches;
}

/** Groups of events at the same instant, earliest first, each by `clientEventId`. */
function byInstant(events: readonly ClockFact[]): { at: Date; events: ClockFact[] }[] {
  const groups = new Map<number, ClockFact[]>();
  for (const event of events) {
    const instant = event.at.getTime();
    const group = groups.get(instant);
    if (group) group.push(event);
    else groups.set(instant, [event]);
  }
  return [...groups]
    .sort(([one], [other]) => one - other)
    .map(([instant, group]) => ({
      at: new Date(instant),
      events: group.sort((one, other) => (one.clientEventId < other.clientEventId ? -1 : 1)),
    }));
}

/** A correction, in the order in which corrections were recorded: the last one of an event counts. */
export interface ClockCorrection {
  readonly correctsId: string;
  readonly at: Date;
  /** Under whose supervision it was, null under nobody's; left out: it says nothing of that. */
  readonly supervisedById?: string | null;
}

/** Events with the times and the supervision that count. */
export function corrected<Event extends { readonly id: string; readonly at: Date }>(
  events: readonly Event[],
  corrections: readonly ClockCorrection[],
): Event[] {
  const times = new Map(corrections.map(({ correctsId, at }) => [correctsId, at]));
  const supervised = new Map(
    corrections.flatMap(({ correctsId, supervisedById }) =>
      supervisedById === undefined ? [] : [[correctsId, { supervisedById }] as const],
    ),
  );
  return events.map((event) => ({
    ...event,
    at: times.get(event.id) ?? event.at,
    ...supervised.get(event.id),
  }));
}

/** Whole seconds of a stretch; one that runs counts up to `now`, and not below zero where the device's clock is ahead. */
export const secondsOf = (
  { startedAt, endedAt }: Pick<StretchOfTime, 'startedAt' | 'endedAt'>,
  now: Date,
) => Math.max(0, Math.floor(((endedAt ?? now).getTime() - startedAt.getTime()) / 1000));
