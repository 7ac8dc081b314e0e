import type { Tx } from '@fairlead/database';
import type { MechanicShare } from '@fairlead/labour';
import { notFound } from '../errors.ts';

/** Whose speed an estimate is asked for; null: whoever is free. The model knows its people by name. */
export async function askedMechanic(
  read: Tx,
  mechanicId: string | null,
): Promise<readonly MechanicShare[]> {
  if (mechanicId === null) return [];
  const mechanic = await read.person.findUnique({
    where: { id: mechanicId },
    select: { name: true },
  });
  if (!mechanic) throw notFound('person');
  return [{ name: mechanic.name, share: 1 }];
}
