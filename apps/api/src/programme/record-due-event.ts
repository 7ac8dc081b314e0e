import {
  hundredths,
  partCountAt,
  partCountNow,
  partTimeAt,
  partTimeNow,
} from '@fairlead/airworthiness';
import type { DueEventKind, Tx } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenText } from '../given.ts';
import { holdFor } from '../hold.ts';
import { shopToday } from '../today.ts';
import {
  countHistoryOf,
  countsUnder,
  eachCount,
  type GivenCounts,
  noCounts,
  refuseCounts,
} from './counts.ts';
import { type DueList, dueListsOf } from './due-list.ts';
import { aircraftOf, dueFacts, ended, historyOf, lastOf, type PartOfDue } from './due-terms.ts';
import { refuseEvent, saidBefore } from './refuse-event.ts';

export interface DueEventInput {
  itemId: string;
  kind: DueEventKind;
  doneOn: Date;
  tisHundredths: number | null;
  /** The aircraft's counts then. */
  counts: GivenCounts;
  method: string;
}

/** Records that something due was complied with, or that it falls due no more. */
export async function recordDueEvent(context: Context, input: DueEventInput): Promise<string> {
  const { personId } = await allow(context, 'inspector', 'manager');
  const method = givenText(input.method, 'method', { least: 2, most: 500 });
  const { itemId, kind, doneOn, tisHundredths, counts } = input;
  refuseCounts(counts);
  const today = await shopToday(context);
  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'due item', itemId);
    const item = await tx.dueItem.findUnique({ where: { id: itemId }, select: dueFacts });
    if (!item) throw notFound('due item');
    const part = item.component;
    const on = part ? aircraftOf(part) : item.aircraftId;
    const [list] = on === null ? [] : await dueListsOf(tx, on, today);
    if (ended(item))
      throw new Refused('CONFLICT', 'It falls due no more: that was recorded already.');
    // decide
    const due = list?.lines.find(({ row }) => row.id === itemId)?.due;
    const partHundredths = part ? partTime(part, on, tisHundredths) : null;
    const partCounts = part ? countsOfPart(part, on, counts) : noCounts;
    const event = { kind, doneOn, tisHundredths, partHundredths, counts, partCounts };
    if (saidBefore(item, event)) return itemId;
    refuseEvent(item, event, today, list ?? null);
    // save
    await tx.dueEvent.create({
      data: {
        ...{ itemId, kind, doneOn, tisHundredths, partHundredths, method },
        ...counts,
        ...countsUnder('part', partCounts),
        // Hours flown past due count against the next (14 CFR 91.409(b)).
        dueAtHundredths: kind === 'ended' ? null : (due?.due.tis ?? null),
        byId: personId,
        at: context.now(),
      },
      select: { id: true },
    });
    if (item.rule === 'annual' && kind === 'complied' && !part && list)
      await countForHundredHour(tx, list, { ...input, method, personId, at: context.now() });
    return itemId;
  });
}

/**
 * An annual inspection is one of the two that 14 CFR 91.409(b) asks for within the preceding 100 hours, so it counts for the
 * 100-hour too; a 100-hour never counts for the annual (91.409(a), last sentence). Without its time in service nothing is
 * counted from it.
 */
async function countForHundredHour(
  tx: Tx,
  { lines }: DueList,
  done: DueEventInput & { personId: string; at: Date },
): Promise<void> {
  const { doneOn, tisHundredths, counts, method, personId, at } = done;
  if (tisHundredths === null) return;
  for (const { row, due } of lines) {
    if (row.rule !== 'hundred_hour' || row.component) continue;
    const last = lastOf(row);
    if (last && (last.doneOn > doneOn || (last.tisHundredths ?? 0) >= tisHundredths)) continue;
    await tx.dueEvent.create({
      data: {
        ...{ itemId: row.id, kind: 'complied', doneOn, tisHundredths, ...counts, at },
        ...{ dueAtHundredths: due?.due.tis ?? null, byId: personId },
        method: `By the annual inspection (14 CFR 91.409(b)): ${method}`.slice(0, 500),
      },
      select: { id: true },
    });
  }
}

/** The part's own time when it was done: at those hours of its aircraft, or as it lies on the shelf. */
function partTime(part: PartOfDue, on: string | null, tisHundredths: number | null): number | null {
  const history = historyOf(part);
  if (on !== null)
    return tisHundredths === null ? null : partTimeAt(history, on, hundredths(tisHundredths));
  const now = partTimeNow(history, null);
  return now.known ? now.time : null;
}

/** The part's own counts when it was done. */
const countsOfPart = (part: PartOfDue, on: string | null, given: GivenCounts): GivenCounts =>
  eachCount((counter) => {
    const history = countHistoryOf(part, counter);
    const then = given[counter];
    if (on === null) return partCountNow(history, null);
    return then === null ? null : partCountAt(history, on, then);
  });
