import { allow, type Context } from '../context.ts';
import { givenPerson, type PersonGiven } from './given-person.ts';
import { givenEmail, type MadeInvitation, makeInvitation } from './make-invitation.ts';
import { refuseInitialsTaken } from './refuse-initials-taken.ts';

/** Adds somebody to the shop; with an address, also the invitation with which they get their sign-in. Both or neither. */
export async function addPerson(
  context: Context,
  { email, ...said }: PersonGiven & { email: string | null },
): Promise<{ personId: string; invitation: MadeInvitation | null }> {
  const { shopId } = await allow(context, 'manager');
  const given = givenPerson(said);
  const address = email?.trim() ? givenEmail(email) : null;
  return context.write(async (tx) => {
    // decide
    await refuseInitialsTaken(tx, given.initials, null);
    // save
    const { id } = await tx.person.create({ data: { ...given, shopId }, select: { id: true } });
    const invitation = address
      ? await makeInvitation(tx, { id, name: given.name }, address, context.now())
      : null;
    return { personId: id, invitation };
  });
}
