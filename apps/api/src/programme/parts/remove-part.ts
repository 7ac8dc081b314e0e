import { counters } from '@fairlead/airworthiness';
import type { Tx } from '@fairlead/database';
import { allow, type Context } from '../../context.ts';
import { Refused } from '../../errors.ts';
import { givenText, sayDay } from '../../given.ts';
import { holdFor } from '../../hold.ts';
import { shopToday } from '../../today.ts';
import { countsFrom, countsUnder } from '../counts.ts';
import { type GivenHandling, keepHandling } from './handle-part.ts';
import { type KnownPart, partForChange } from './part-for-change.ts';
import { type GivenMoment, partMoment } from './part-moment.ts';

export interface RemovePartInput extends GivenMoment, GivenHandling {
  componentId: string;
  /** Why it came off, in what condition, and whereto. */
  words: string;
}

/**
 * Takes a part off its aircraft; what it carries comes off with it. Its life goes with it (14 CFR 43.10(c): at each removal of
 * a life-limited part its number, serial number and life status are to go along).
 */
export async function removePart(context: Context, input: RemovePartInput): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const words = givenText(input.words, 'words', { least: 3, most: 500 });
  const today = await shopToday(context);
  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'parts', 'of the shop');
    const part = await partForChange(tx, input.componentId);
    const { now, title, serial } = part;
    // decide
    if (!now)
      throw new Refused(
        'CONFLICT',
        `${title}, serial ${serial}, lies on the shelf: there is nothing to take it off.`,
        'componentId',
      );
    const aircraft = { id: now.aircraftId, registration: now.aircraft.registration };
    const { at, tisHundredths, counts } = await partMoment(tx, aircraft, input, {
      now: context.now(),
      today,
    });
    if (at < now.fittedAt)
      throw new Refused(
        'BAD_INPUT',
        `It was fitted on ${sayDay(now.fittedAt)}: it cannot have come off before that.`,
        'on',
      );
    if (tisHundredths < now.aircraftTisHundredths)
      throw new Refused(
        'BAD_INPUT',
        `It was fitted at ${(now.aircraftTisHundredths / 100).toFixed(1)} h of ${aircraft.registration}: it cannot have come off at ${(tisHundredths / 100).toFixed(1)} h.`,
        'tisHundredths',
      );
    const fittedWith = countsFrom('aircraft', now);
    const less = counters.find(
      (counter) => (counts[counter] ?? Infinity) < (fittedWith[counter] ?? 0),
    );
    if (less)
      throw new Refused(
        'BAD_INPUT',
        `It was fitted at ${fittedWith[less]} ${less} of ${aircraft.registration}: it cannot have come off at ${counts[less]}.`,
        less,
      );
    refuseUncontrolled(part, input);
    // save
    const ending = {
      ...{ removedAt: at, removedTisHundredths: tisHundredths },
      ...{ removedById: personId, removalWords: words, ...countsUnder('removed', counts) },
    };
    await tx.componentFitting.update({
      where: { id: now.id },
      data: ending,
      select: { id: true },
    });
    await tx.componentFitting.updateMany({
      where: { id: { in: await carriedNow(tx, input.componentId) } },
      data: { ...ending, removedWithParent: true },
    });
    await keepHandling(tx, {
      ...input,
      ...{ fittingId: now.id, side: 'off', aircraftId: aircraft.id, byId: personId },
    });
    return input.componentId;
  });
}

/** Whoever takes a life-limited part off sees to it that it is not fitted past its life (14 CFR 43.10(c)). */
function refuseUncontrolled(part: KnownPart, { disposition }: RemovePartInput): void {
  if (part.lifeLimited && disposition === null)
    throw new Refused(
      'AGAINST_RULE',
      `${part.title}, serial ${part.serial}, is life-limited, and what becomes of it was not said: needed is how it is kept from being fitted past its life (14 CFR 43.10(c): a record, a tag, marking, kept apart, made useless), or that it goes back (43.10(b)).`,
      'disposition',
    );
}

/** The stays of what a part carries now, and of what that carries in turn. */
async function carriedNow(tx: Tx, componentId: string): Promise<string[]> {
  const fittings: string[] = [];
  let on = [componentId];
  while (on.length > 0) {
    const carried = await tx.componentFitting.findMany({
      where: { parentId: { in: on }, removedAt: null },
      select: { id: true, componentId: true },
    });
    fittings.push(...carried.map(({ id }) => id));
    on = carried.map((each) => each.componentId);
  }
  return fittings;
}
