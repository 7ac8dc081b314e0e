import { allow, type Context } from '../context.ts';
import { shopKey } from '../shop-key.ts';
import { personHeld } from './for-change.ts';
import { givenEmail, type MadeInvitation, makeInvitation } from './make-invitation.ts';

/** Makes a new invitation for somebody of the shop who has no sign-in. */
export async function invitePerson(
  context: Context,
  { personId, email, byMail = false }: { personId: string; email: string; byMail?: boolean },
): Promise<MadeInvitation> {
  const viewer = await allow(context, 'manager');
  const address = givenEmail(email);
  const mailed = byMail
    ? { personId: viewer.personId, key: await shopKey(context.uploadsDir, viewer.shopId) }
    : null;
  return context.write(async (tx) => {
    const person = await personHeld(tx, personId);
    return makeInvitation(tx, person, address, context.now(), mailed);
  });
}
