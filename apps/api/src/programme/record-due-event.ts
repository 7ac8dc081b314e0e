import type { DueEventKind } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenText, sayDay } from '../given.ts';
import { holdFor } from '../hold.ts';
import { shopToday } from '../today.ts';
import { dueListsOf } from './due-list.ts';
import { lastOf } from './due-terms.ts';

export interface DueEventInput {
  itemId: string;
  kind: DueEventKind;
  doneOn: Date;
  tisHundredths: number | null;
  method: string;
}

const hours = (hundredths: number) => (hundredths / 100).toFixed(1);

/** Records that something due was complied with, or that it falls due no more. */
export async function recordDueEvent(context: Context, input: DueEventInput): Promise<string> {
  const { personId } = await allow(context, 'inspector', 'manager');
  const method = givenText(input.method, 'method', { least: 2, most: 500 });
  const { itemId, kind, doneOn, tisHundredths } = input;
  const today = await shopToday(context);
  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'due item', itemId);
    const item = await tx.dueItem.findUnique({
      where: { id: itemId },
      select: { aircraftId: true },
    });
    if (!item) throw notFound('due item');
    const [list] = await dueListsOf(tx, item.aircraftId, today);
    const line = list?.lines.find(({ row }) => row.id === itemId);
    if (!list || !line)
      throw new Refused('CONFLICT', 'It falls due no more: that was recorded already.');
    // decide
    const { row, due } = line;
    const last = lastOf(row);
    if (doneOn > today)
      throw new Refused(
        'BAD_INPUT',
        `Done on ${sayDay(doneOn)} was refused: today is ${sayDay(today)}, and what is not done yet is not complied with.`,
        'doneOn',
      );
    if (tisHundredths !== null && (tisHundredths < 0 || tisHundredths > (list.tisHundredths ?? 0)))
      throw new Refused(
        'BAD_INPUT',
        `${hours(tisHundredths)} h was refused: the newest reading of ${list.registration} is ${list.tisHundredths === null ? 'none' : `${hours(list.tisHundredths)} h`}. Enter the meter reading first.`,
        'tisHundredths',
      );
    const byHours =
      row.rule === 'hundred_hour' || row.everyHundredths !== null || row.limitHundredths !== null;
    if (kind === 'complied' && byHours && tisHundredths === null)
      throw new Refused(
        'BAD_INPUT',
        `“${row.title}” counts hours: give the time in service at which it was done.`,
        'tisHundredths',
      );
    if (last && kind === 'complied') {
      const same =
        last.doneOn.getTime() === doneOn.getTime() && last.tisHundredths === tisHundredths;
      if (same) return itemId;
      if (doneOn < last.doneOn || (tisHundredths ?? Infinity) < (last.tisHundredths ?? 0))
        throw new Refused(
          'BAD_INPUT',
          `It was last done on ${sayDay(last.doneOn)}${last.tisHundredths === null ? '' : ` at ${hours(last.tisHundredths)} h`}: what came before that changes nothing that falls due.`,
          'doneOn',
        );
    }
    // save
    await tx.dueEvent.create({
      data: {
        ...{ itemId, kind, doneOn, tisHundredths, method },
        // Hours flown past due count against the next (14 CFR 91.409(b)).
        dueAtHundredths: kind === 'complied' ? (due?.due.tis ?? null) : null,
        byId: personId,
        at: context.now(),
      },
      select: { id: true },
    });
    return itemId;
  });
}
