import { allow, type Context } from '../context.ts';
import { personHeld } from './for-change.ts';
import { givenEmail, type MadeInvitation, makeInvitation } from './make-invitation.ts';

/** Makes a new invitation for somebody of the shop who has no sign-in. */
export async function invitePerson(
  context: Context,
  { personId, email }: { personId: string; email: string },
): Promise<MadeInvitation> {
  await allow(context, 'manager');
  const address = givenEmail(email);
  return context.write(async (tx) => {
    const person = await personHeld(tx, personId);
    return makeInvitation(tx, person, address, context.now());
  });
}
