import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { personForChange } from './for-change.ts';

/** Somebody who left works here again, as they were. They need a new invitation to sign in. */
export async function takeBackPerson(
  context: Context,
  { personId, expectedVersion }: { personId: string; expectedVersion: number },
): Promise<string> {
  await allow(context, 'manager');
  return context.write(async (tx) => {
    const person = await personForChange(tx, personId, expectedVersion);
    if (person.active)
      throw new Refused('CONFLICT', `${person.name} works here already.`, 'personId');
    await tx.person.update({
      where: { id: person.id },
      data: { active: true },
      select: { id: true },
    });
    return person.id;
  });
}
