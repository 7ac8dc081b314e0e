import { allow, type Context } from '../context.ts';
import { notFound } from '../errors.ts';
import { givenMailAddress } from '../mail-address.ts';

/** Sets where a contact's mail goes; null or nothing takes it away. What is queued already goes where it was going. */
export async function setContactEmail(
  context: Context,
  input: { contactId: string; email: string | null },
): Promise<string> {
  await allow(context, 'front_desk', 'manager');
  const email = givenMailAddress(input.email, 'email');
  return context.write(async (tx) => {
    const where = { id: input.contactId };
    if (!(await tx.contact.findUnique({ where, select: { id: true } }))) throw notFound('contact');
    await tx.contact.update({ where, data: { email }, select: { id: true } });
    return input.contactId;
  });
}
