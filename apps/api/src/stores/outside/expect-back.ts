import type { Tx } from '@fairlead/database';
import { Refused } from '../../errors.ts';
import { sayDay } from '../../given.ts';

const DAYS_FAR = 730;

/** What is expected, by the name under which the newest word on it holds. */
export const expectedAs = ({ what, vendor }: { what: string; vendor: string }): string =>
  `${what}, from ${vendor}`.slice(0, 120);

/** Keeps for which day it is promised, and that the item waits for it until then: so the promise of the visit moves. */
export async function expectBack(
  tx: Tx,
  job: { id: string; itemId: string; vendor: string; what: string },
  said: { promisedOn: Date | null; saidBy: string; now: Date; personId: string },
): Promise<void> {
  const { promisedOn, saidBy, now, personId } = said;
  await tx.outsideEvent.create({
    data: { jobId: job.id, kind: 'promised', promisedOn, saidBy, at: now, byId: personId },
    select: { id: true },
  });
  await tx.expectation.create({
    data: {
      ...{ itemId: job.itemId, what: expectedAs(job), expectedOn: promisedOn, saidBy },
      ...{ notedAt: now, notedById: personId },
    },
    select: { id: true },
  });
}

export function refusePromisedOn(day: Date | null, today: Date): void {
  if (day === null) return;
  const ahead = (day.getTime() - today.getTime()) / 86_400_000;
  if (ahead < 0 || ahead > DAYS_FAR)
    throw new Refused(
      'BAD_INPUT',
      `A return on ${sayDay(day)} was refused: needed is a day from today, ${sayDay(today)}, to two years on. Where nobody can say, leave the day out.`,
      'promisedOn',
    );
}
