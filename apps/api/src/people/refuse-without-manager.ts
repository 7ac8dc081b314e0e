import type { Role, Tx } from '@fairlead/database';
import { Refused } from '../errors.ts';

/** Refuses to take the manager's role from the last who has it. The database refuses it too, also of two at once. */
export async function refuseWithoutManager(
  tx: Tx,
  person: { id: string; name: string; roles: readonly Role[] },
): Promise<void> {
  if (!person.roles.includes('manager')) return;
  const others = await tx.person.count({
    where: { id: { not: person.id }, active: true, roles: { has: 'manager' } },
  });
  if (others === 0)
    throw new Refused(
      'AGAINST_RULE',
      `${person.name} is the shop's only manager and stays it: make somebody else a manager first.`,
      'personId',
    );
}
