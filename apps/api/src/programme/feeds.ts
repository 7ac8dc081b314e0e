import { createHash, randomBytes } from 'node:crypto';
import { allow, type Context } from '../context.ts';
import { notFound } from '../errors.ts';

export const feedHash = (secret: string): Uint8Array<ArrayBuffer> =>
  new Uint8Array(createHash('sha256').update(secret).digest());

/** Makes an address for a calendar: of one aircraft, or of all. Earlier ones of the same end. Returns its secret, told once. */
export async function makeFeed(context: Context, aircraftId: string | null): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'inspector', 'manager');
  const secret = randomBytes(32).toString('base64url');
  await context.write(async (tx) => {
    if (
      aircraftId !== null &&
      !(await tx.aircraft.findUnique({ where: { id: aircraftId }, select: { id: true } }))
    )
      throw notFound('aircraft');
    await tx.dueFeed.updateMany({
      where: { aircraftId, revokedAt: null },
      data: { revokedAt: context.now() },
    });
    await tx.dueFeed.create({
      data: { aircraftId, secretHash: feedHash(secret), madeById: personId },
      select: { id: true },
    });
  });
  return secret;
}
