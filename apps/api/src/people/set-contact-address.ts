import { allow, type Context } from '../context.ts';
import { notFound } from '../errors.ts';
import { type GivenAddress, givenAddress } from '../postal-address.ts';

/** Sets where a contact's post and invoices go; null takes it away. An invoice that is issued keeps what it was issued with. */
export async function setContactAddress(
  context: Context,
  input: { contactId: string; postalAddress: GivenAddress | null },
): Promise<string> {
  await allow(context, 'front_desk', 'manager');
  const data = givenAddress(input.postalAddress);
  return context.write(async (tx) => {
    const where = { id: input.contactId };
    if (!(await tx.contact.findUnique({ where, select: { id: true } }))) throw notFound('contact');
    await tx.contact.update({ where, data, select: { id: true } });
    return input.contactId;
  });
}
