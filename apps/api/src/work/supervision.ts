import type { Prisma, Tx } from '@fairlead/database';
import { Refused } from '../errors.ts';

/** Who may supervise work: whoever works on aircraft by themselves. Late events may name somebody who has left since. */
export const maySupervise = {
  apprentice: false,
  roles: { hasSome: ['mechanic', 'inspector'] },
} satisfies Prisma.PersonWhereInput;

export const wrongSupervisor = () =>
  new Refused(
    'BAD_INPUT',
    'Nobody can work under that person’s supervision: needed is a mechanic or an inspector of the shop, not an apprentice, and not oneself.',
    'supervisedById',
  );

/** Who of those named may supervise: whoever works on aircraft and is no apprentice (14 CFR 43.3(d)). */
export async function supervisorsAmong(tx: Tx, ids: readonly string[]): Promise<Set<string>> {
  if (ids.length === 0) return new Set();
  const people = await tx.person.findMany({
    where: { id: { in: [...ids] }, ...maySupervise },
    select: { id: true },
  });
  return new Set(people.map(({ id }) => id));
}

/** @throws Refused where that person cannot supervise this one */
export async function needSupervisor(tx: Tx, id: string, personId: string): Promise<void> {
  if (id === personId || !(await supervisorsAmong(tx, [id])).has(id)) throw wrongSupervisor();
}
