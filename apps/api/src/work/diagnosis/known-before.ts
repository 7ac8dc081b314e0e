import type { Tx } from '@fairlead/database';
import { type Seen, type Symptom, workBefore } from '@fairlead/diagnosis';

/** Work that was finished so long before a finding may have to do with it (common practice, no source). */
const BEFORE_MS = 72 * 3600 * 1000;
const MOST_DONE = 60;

export interface DoneBefore {
  title: string;
  jasc: string;
  at: Date;
  orderId: string;
  /** As the question for the work before is answered. */
  work: string;
}

export interface Found {
  foundAt: Date;
  itemId: string | null;
  order: { id: string; aircraftId: string };
}

/** What the shop finished on the aircraft in the three days before, the newest first. */
export async function doneBefore(
  read: Tx,
  { foundAt, itemId, order: { aircraftId } }: Found,
): Promise<DoneBefore[]> {
  const done = await read.itemEvent.findMany({
    where: {
      kind: 'done',
      at: { gte: new Date(foundAt.getTime() - BEFORE_MS), lt: foundAt },
      item: { order: { aircraftId }, ...(itemId && { id: { not: itemId } }) },
    },
    orderBy: [{ at: 'desc' }, { id: 'desc' }],
    take: MOST_DONE,
    select: { at: true, item: { select: { title: true, jasc: true, orderId: true } } },
  });
  return done.map(({ at, item }) => ({ ...item, at, work: workBefore(item.jasc) }));
}

/**
 * What the orders say where nobody answered: the kind of work before, where all that was done was of one kind, and
 * that the engine has run since, where the aircraft came for this order after it or a meter moved. Nothing is guessed:
 * an inspection touches everything, and then only the finder knows.
 */
export async function knownBefore(
  read: Tx,
  symptom: Symptom,
  seen: Seen,
  found: Found,
  done: readonly DoneBefore[],
): Promise<Seen> {
  const asks = (id: string) => symptom.questions.some((question) => question.id === id);
  if (!asks('work')) return {};
  const known: Record<string, string> = {};
  const kinds = new Set(done.map(({ work }) => work));
  if (kinds.size > 1) kinds.delete('other');
  const [only] = kinds;
  if (seen['work'] === undefined && kinds.size === 1 && only !== undefined) known['work'] = only;
  const work = seen['work'] ?? known['work'];
  const last = done.find((one) => one.work === work);
  if (last && asks('run') && seen['run'] === undefined && (await hasRun(read, found, last)))
    known['run'] = 'yes';
  return known;
}

async function hasRun(read: Tx, found: Found, last: DoneBefore): Promise<boolean> {
  if (last.orderId !== found.order.id) {
    const arrived = await read.orderEvent.findFirst({
      where: { orderId: found.order.id, kind: 'arrived' },
      select: { at: true },
    });
    if (arrived && arrived.at > last.at) return true;
  }
  const readings = await read.meterReading.findMany({
    where: { aircraftId: found.order.aircraftId, readAt: { lte: found.foundAt } },
    orderBy: [{ readAt: 'desc' }, { id: 'desc' }],
    take: MOST_DONE,
    select: { readAt: true, tisHundredths: true },
  });
  const before = readings.find(({ readAt }) => readAt <= last.at);
  return readings.some(
    ({ readAt, tisHundredths }) =>
      readAt > last.at && before !== undefined && tisHundredths > before.tisHundredths,
  );
}
