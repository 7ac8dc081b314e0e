import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { stopClockOf } from '../work/queries.ts';
import { personForChange } from './for-change.ts';
import { refuseWithoutManager } from './refuse-without-manager.ts';

/**
 * Somebody leaves. Their running clock stops, and with the same commit their sessions, sign-in and invitation are gone
 * (the database's trigger), so that their next request is refused. What they did stays theirs.
 */
export async function deactivatePerson(
  context: Context,
  { personId, expectedVersion }: { personId: string; expectedVersion: number },
): Promise<{ personId: string; clockStopped: boolean }> {
  await allow(context, 'manager');
  return context.write(async (tx) => {
    // load
    const person = await personForChange(tx, personId, expectedVersion);
    // decide
    if (!person.active)
      throw new Refused('CONFLICT', `${person.name} has left already.`, 'personId');
    await refuseWithoutManager(tx, person);
    // save
    const clockStopped = await stopClockOf(tx, person.id, context.now());
    await tx.person.update({
      where: { id: person.id },
      data: { active: false },
      select: { id: true },
    });
    return { personId: person.id, clockStopped };
  });
}
