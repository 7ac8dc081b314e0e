import type { Tx } from '@fairlead/database';
import { allow, type Context } from '../../context.ts';
import { Refused } from '../../errors.ts';
import { givenText, sayDay } from '../../given.ts';
import { holdFor } from '../../hold.ts';
import { literally } from '../../literally.ts';
import { shopToday } from '../../today.ts';
import { countsUnder } from '../counts.ts';
import { keepHandling } from './handle-part.ts';
import { type KnownPart, partForChange } from './part-for-change.ts';
import { aircraftNamed, type GivenMoment, type PartMoment, partMoment } from './part-moment.ts';

export interface FitPartInput extends GivenMoment {
  componentId: string;
  aircraftId: string;
  position: string;
  /** The part that carries it, fitted to the same aircraft. */
  parentId: string | null;
  /** In the course of which work. */
  itemId: string | null;
}

/** Fits a part to an aircraft, with what came off together with it. Its time and what falls due on it come along. */
export async function fitPart(context: Context, input: FitPartInput): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const position = givenText(input.position, 'position', { least: 1, most: 60 });
  const { componentId, aircraftId, parentId } = input;
  const today = await shopToday(context);
  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'parts', 'of the shop');
    const part = await partForChange(tx, componentId);
    const aircraft = await aircraftNamed(tx, aircraftId);
    const moment = await partMoment(tx, aircraft, input, { now: context.now(), today });
    // decide
    refuseTwice(part);
    refuseBeforeLast(part, aircraftId, moment);
    await refuseTaken(tx, aircraft, position, parentId);
    if (parentId) await refuseParent(tx, part, aircraftId, parentId);
    // save
    const fitting = {
      ...{ aircraftId, fittedAt: moment.at, aircraftTisHundredths: moment.tisHundredths },
      ...countsUnder('aircraft', moment.counts),
      fittedById: personId,
    };
    const { id: fittingId } = await tx.componentFitting.create({
      data: { ...fitting, componentId, position, parentId },
      select: { id: true },
    });
    await tx.componentFitting.createMany({
      data: (await carriedBy(tx, componentId)).map((carried) => ({ ...fitting, ...carried })),
    });
    await keepHandling(tx, {
      ...{ fittingId, side: 'on', itemId: input.itemId, aircraftId, byId: personId },
      ...{ disposition: null, dispositionWords: '' },
    });
    return componentId;
  });
}

/** A serialised part is in one place at a time. */
function refuseTwice({ title, serial, now }: KnownPart): void {
  if (now)
    throw new Refused(
      'CONFLICT',
      `${title}, serial ${serial}, is fitted to ${now.aircraft.registration} (${now.position}) since ${sayDay(now.fittedAt)}: take it off there first.`,
      'componentId',
    );
}

function refuseBeforeLast(part: KnownPart, aircraftId: string, moment: PartMoment): void {
  const { last } = part;
  if (!last?.removedAt) return;
  if (moment.at < last.removedAt)
    throw new Refused(
      'BAD_INPUT',
      `It came off ${last.aircraft.registration} on ${sayDay(last.removedAt)}: it cannot have been fitted before that.`,
      'on',
    );
  const then = last.removedTisHundredths;
  if (last.aircraftId === aircraftId && then !== null && moment.tisHundredths < then)
    throw new Refused(
      'BAD_INPUT',
      `It came off ${last.aircraft.registration} at ${(then / 100).toFixed(1)} h: it cannot have been fitted there again at ${(moment.tisHundredths / 100).toFixed(1)} h.`,
      'tisHundredths',
    );
}

async function refuseTaken(
  tx: Tx,
  { id, registration }: { id: string; registration: string },
  position: string,
  parentId: string | null,
): Promise<void> {
  const there = await tx.componentFitting.findFirst({
    where: {
      ...{ aircraftId: id, removedAt: null, parentId },
      position: { equals: literally(position), mode: 'insensitive' },
    },
    select: { component: { select: { title: true, serial: true } } },
  });
  if (there)
    throw new Refused(
      'CONFLICT',
      `The place “${position}” of ${registration} is taken by ${there.component.title}, serial ${there.component.serial}: take that off first, or name another place.`,
      'position',
    );
}

async function refuseParent(
  tx: Tx,
  { id, title }: KnownPart,
  aircraftId: string,
  parentId: string,
): Promise<void> {
  if (parentId === id) throw new Refused('BAD_INPUT', 'A part does not carry itself.', 'parentId');
  const parent = await partForChange(tx, parentId);
  if (parent.now?.aircraftId !== aircraftId)
    throw new Refused(
      'AGAINST_RULE',
      `${parent.title}, serial ${parent.serial}, is not fitted to that aircraft: fit it first, or leave out what carries ${title}.`,
      'parentId',
    );
}

/** What lies on the shelf together with a part, and what that carries in turn. */
async function carriedBy(tx: Tx, componentId: string) {
  const newest = await tx.componentFitting.findMany({
    orderBy: [{ fittedAt: 'desc' }, { id: 'desc' }],
    distinct: ['componentId'],
    select: { componentId: true, parentId: true, position: true, removedWithParent: true },
  });
  // A part's newest stay says what it lies with: anything later ended that.
  const lying = newest.filter(({ removedWithParent }) => removedWithParent);
  const carried: { componentId: string; parentId: string; position: string }[] = [];
  const on = [componentId];
  for (const parentId of on)
    for (const each of lying)
      if (each.parentId === parentId) {
        carried.push({ componentId: each.componentId, parentId, position: each.position });
        on.push(each.componentId);
      }
  return carried;
}
