import { allow, type Context } from '../context.ts';
import { personForChange, refuseWhoLeft } from './for-change.ts';
import { givenPerson, type PersonGiven } from './given-person.ts';
import { refuseInitialsTaken } from './refuse-initials-taken.ts';
import { refuseWithoutManager } from './refuse-without-manager.ts';

/** Changes what somebody is in the shop. It counts from their next request on. */
export async function changePerson(
  context: Context,
  {
    personId,
    expectedVersion,
    ...said
  }: PersonGiven & { personId: string; expectedVersion: number },
): Promise<string> {
  await allow(context, 'manager');
  const given = givenPerson(said);
  return context.write(async (tx) => {
    // load
    const person = await personForChange(tx, personId, expectedVersion);
    // decide
    refuseWhoLeft(person);
    if (given.initials !== person.initials)
      await refuseInitialsTaken(tx, given.initials, person.id);
    if (!given.roles.includes('manager')) await refuseWithoutManager(tx, person);
    // save
    await tx.person.update({ where: { id: person.id }, data: given, select: { id: true } });
    return person.id;
  });
}
