import type { Prisma } from '@fairlead/database';
import type { AccessConditions } from '@fairlead/labour';

/** A row of access conditions as the labour model wants it: what is null was not recorded. */
export function conditionsFrom(
  row: Omit<Prisma.AccessModel, 'id' | 'shopId'> | null | undefined,
): AccessConditions | undefined {
  if (!row) return undefined;
  return {
    clearanceMm: row.clearanceMm ?? undefined,
    sight: row.sight ?? undefined,
    posture: row.posture ?? undefined,
    reach: row.reach ?? undefined,
    swingDeg: row.swingDeg ?? undefined,
    held: row.held ?? undefined,
    lockedFasteners: row.lockedFasteners ?? undefined,
  };
}
