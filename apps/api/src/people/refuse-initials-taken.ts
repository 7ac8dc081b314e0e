import type { Tx } from '@fairlead/database';
import { Refused } from '../errors.ts';
import { holdFor } from '../hold.ts';

/** Initials stand beside the work for as long as its record is kept, so those of somebody who left are not given again. */
export async function refuseInitialsTaken(
  tx: Tx,
  initials: string,
  except: string | null,
): Promise<void> {
  await holdFor(tx, 'initials', initials);
  const other = await tx.person.findFirst({
    where: { initials, ...(except && { id: { not: except } }) },
    select: { name: true, active: true },
  });
  if (other)
    throw new Refused(
      'CONFLICT',
      `The initials ${initials} are ${other.name}'s${other.active ? '' : ', who has left, and stand beside their work'}: needed are initials of their own.`,
      'initials',
    );
}
