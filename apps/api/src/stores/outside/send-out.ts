import { allow, type Context } from '../../context.ts';
import { Refused } from '../../errors.ts';
import { givenText } from '../../given.ts';
import { shopToday } from '../../today.ts';
import { itemForChange, needState, refuseOutsideVisit } from '../../work/index.ts';
import { expectBack, refusePromisedOn } from './expect-back.ts';

export interface SendOutInput {
  itemId: string;
  vendor: string;
  what: string;
  partNumber: string | null;
  serial: string | null;
  /** Null: nobody can say. */
  promisedOn: Date | null;
  sentAt: Date | null;
}

const DAY_MS = 86_400_000;
const MOST_BACK = 366 * DAY_MS;

/** Keeps that something of an aircraft went to another shop. The item waits for it, and so does the promise of the visit. */
export async function sendOut(context: Context, input: SendOutInput): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'mechanic', 'inspector', 'manager');
  const today = await shopToday(context);
  const now = context.now();
  const vendor = givenText(input.vendor, 'vendor', { least: 2, most: 120 });
  const what = givenText(input.what, 'what', { least: 3, most: 200 });
  const partNumber = givenText(input.partNumber, 'partNumber', { most: 60 });
  const serial = givenText(input.serial, 'serial', { most: 60 });
  const at = input.sentAt ?? now;
  if (at.getTime() > now.getTime() + 60_000 || at.getTime() < now.getTime() - MOST_BACK)
    throw new Refused(
      'BAD_INPUT',
      `sentAt is ${at.toISOString()}: needed is a time within the last year, up to now.`,
      'sentAt',
    );
  refusePromisedOn(input.promisedOn, today);
  return context.write(async (tx) => {
    // load
    const item = await itemForChange(tx, input.itemId);
    // decide
    refuseOutsideVisit(item);
    await needState(tx, item, 'worked on in another shop', 'open', 'in_work', 'waiting');
    const twin = await tx.outsideJob.findFirst({
      where: { itemId: item.id, what, serial, events: { none: { kind: 'returned' } } },
      select: { number: true, vendor: true },
    });
    if (twin)
      throw new Refused(
        'CONFLICT',
        `“${what}” is with ${twin.vendor} already, outside job ${twin.number}: say there when it comes back.`,
      );
    // save
    const { id } = await tx.outsideJob.create({
      data: { itemId: item.id, vendor, what, partNumber, serial, at, byId: personId },
      select: { id: true },
    });
    await expectBack(
      tx,
      { id, itemId: item.id, vendor, what },
      {
        ...{ promisedOn: input.promisedOn, saidBy: vendor, now, personId },
      },
    );
    return id;
  });
}
