import { kindsOfWork } from '@fairlead/airworthiness';
import type { QualificationKind } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenText, sayDay } from '../given.ts';
import { shopToday } from '../today.ts';
import { personHeld, refuseWhoLeft } from './for-change.ts';

export interface StateQualificationInput {
  /** Null: the shop's own, a rating of the station. */
  personId: string | null;
  kind: QualificationKind;
  subject: string;
  validFrom: Date;
  validUntil: Date | null;
  paper: string;
}

const ratings = ['airframe', 'powerplant', 'propeller', 'radio', 'instrument'];

/** What a kind is about: a kind of work, a rating, or nothing besides itself. */
const subjectsOf: Record<QualificationKind, readonly string[]> = {
  work_done: Object.keys(kindsOfWork),
  work_shown: Object.keys(kindsOfWork),
  served: [],
  found_able: [],
  inspection_activity: [],
  release_authorised: ratings,
  station_rating: ratings,
};

/** Enters what a signature rests on besides a certificate, with its paper, under the name of who enters it. */
export async function stateQualification(
  context: Context,
  input: StateQualificationInput,
): Promise<string> {
  const { personId: byId } = await allow(context, 'manager');
  const { personId, kind, subject, validFrom, validUntil } = input;
  const paper = givenText(input.paper, 'paper', { least: 3, most: 300 });
  const today = await shopToday(context);
  const subjects = subjectsOf[kind];
  if (subjects.length === 0 ? subject !== '' : !subjects.includes(subject))
    throw new Refused(
      'BAD_INPUT',
      `“${subject.slice(0, 60)}” was given as its subject: needed is ${subjects.length === 0 ? 'none' : subjects.join(', ')}.`,
      'subject',
    );
  if ((kind === 'station_rating') !== (personId === null))
    throw new Refused(
      'BAD_INPUT',
      kind === 'station_rating'
        ? 'A rating is the station’s, not a person’s: leave the person out.'
        : 'Whose it is was not said: needed is a person.',
      'personId',
    );
  if (validFrom > today)
    throw new Refused(
      'BAD_INPUT',
      `It is from ${sayDay(validFrom)}, and today is ${sayDay(today)}: what is not so yet cannot be entered.`,
      'validFrom',
    );
  if (validUntil && validUntil < validFrom)
    throw new Refused(
      'BAD_INPUT',
      `It ends on ${sayDay(validUntil)}, before it begins, ${sayDay(validFrom)}.`,
      'validUntil',
    );
  return context.write(async (tx) => {
    if (personId !== null) refuseWhoLeft(await personHeld(tx, personId));
    const { id } = await tx.qualification.create({
      data: { personId, kind, subject, validFrom, validUntil, paper, byId },
      select: { id: true },
    });
    return id;
  });
}

/** It does not hold, or no longer: said by name. What was signed on it stays signed. */
export async function withdrawQualification(
  context: Context,
  given: { qualificationId: string; words: string },
): Promise<string> {
  const { personId: byId } = await allow(context, 'manager');
  const paper = givenText(given.words, 'words', { least: 3, most: 300 });
  return context.write(async (tx) => {
    const stated = await tx.qualification.findUnique({
      where: { id: given.qualificationId },
      select: {
        ...{ id: true, personId: true, kind: true, subject: true, validFrom: true },
        ...{ withdrawsId: true, withdrawnBy: { select: { id: true } } },
      },
    });
    if (!stated) throw notFound('qualification');
    const { id, withdrawnBy, withdrawsId, ...same } = stated;
    if (withdrawsId !== null || withdrawnBy)
      throw new Refused('CONFLICT', 'That does not hold any more already.');
    await tx.qualification.create({
      data: { ...same, paper, withdrawsId: id, byId },
      select: { id: true },
    });
    return id;
  });
}
