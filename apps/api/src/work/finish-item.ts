import type { Prisma, Tx } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { askRefit } from '../hindsight/index.ts';
import { refuseUnfinished } from '../safety/queries.ts';
import { appendItemEvent, isRecorded, type Noted, notedMoment } from './item-event.ts';
import { itemForChange, needState, refuseOutsideVisit, refuseRunning } from './item-for-change.ts';
import { text } from './limits.ts';

type Condition =
  | 'clearanceMm'
  | 'sight'
  | 'posture'
  | 'reach'
  | 'swingDeg'
  | 'held'
  | 'lockedFasteners';
export type FoundAccess = {
  [Key in Condition]?: Prisma.AccessUncheckedCreateInput[Key] | undefined;
};

export interface FinishItemInput {
  itemId: string;
  /** The description of the work performed (14 CFR 43.9(a)(1)). */
  workDone: string;
  /** How the place turned out to be, where the mechanic said so: the next estimate learns from it. */
  foundAccess: FoundAccess | null;
  noted?: Noted | null;
}

/** Says that an item is done, and what was done. */
export async function finishItem(context: Context, input: FinishItemInput): Promise<string> {
  const { personId, shopId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const workDone = text(input.workDone, 'workDone', { least: 3, most: 4000 });
  refuseImpossible(input.foundAccess);
  const moment = notedMoment(input.noted, context.now());
  return context.write(async (tx) => {
    // load
    const item = await itemForChange(tx, input.itemId);
    if (await isRecorded(tx, moment, item.id, personId)) return item.id;
    // decide
    const last = item.events.at(-1);
    if (last?.kind === 'done' && last.byId === personId && last.workDone === workDone)
      return item.id;
    refuseOutsideVisit(item);
    await needState(tx, item, 'finished', 'open', 'in_work', 'waiting');
    refuseRunning(item, 'finished');
    await refuseUnfinished(tx, item);
    // save
    const foundAccessId = await keepAccess(tx, shopId, input.foundAccess);
    await appendItemEvent(tx, item, personId, moment, { kind: 'done', workDone, foundAccessId });
    await askRefit(tx, context.now());
    return item.id;
  });
}

const ranges = {
  clearanceMm: [100_000, 'mm'],
  swingDeg: [360, 'degrees'],
  lockedFasteners: [1000, 'fasteners'],
} as const;

function refuseImpossible(found: FoundAccess | null): void {
  for (const [field, [most, unit]] of Object.entries(ranges)) {
    const value = found?.[field as keyof typeof ranges];
    if (typeof value === 'number' && (value < 0 || value > most))
      throw new Refused(
        'BAD_INPUT',
        `${field} is ${value}: needed is 0 to ${most} ${unit}.`,
        `foundAccess.${field}`,
      );
  }
}

async function keepAccess(
  tx: Tx,
  shopId: string,
  found: FoundAccess | null,
): Promise<string | null> {
  const said = Object.entries(found ?? {}).filter(
    ([, value]) => value !== null && value !== undefined,
  );
  if (said.length === 0) return null;
  const { id } = await tx.access.create({
    data: { shopId, ...Object.fromEntries(said) },
    select: { id: true },
  });
  return id;
}
