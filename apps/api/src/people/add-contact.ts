import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { givenText } from '../given.ts';
import { holdFor } from '../hold.ts';
import { literally } from '../literally.ts';
import { givenMailAddress } from '../mail-address.ts';
import { type GivenAddress, givenAddress } from '../postal-address.ts';

export interface AddContactInput {
  name: string;
  email: string | null;
  phone: string | null;
  postalAddress: GivenAddress | null;
}

/** Adds somebody outside the shop: who buys an aircraft, an insurer, who gives a warranty. The same name and e-mail again is refused. */
export async function addContact(context: Context, input: AddContactInput): Promise<string> {
  await allow(context, 'front_desk', 'manager');
  const name = givenText(input.name, 'name', { least: 1, most: 120 });
  const email = givenMailAddress(input.email, 'email');
  const phone = givenText(input.phone, 'phone', { most: 40 }) || null;
  const address = givenAddress(input.postalAddress);
  const shopId = context.viewer?.shopId ?? '';
  return context.write(async (tx) => {
    await holdFor(tx, 'contact named', name.toLowerCase());
    const twin = await tx.contact.findFirst({
      where: { name: { equals: literally(name), mode: 'insensitive' }, email },
      select: { name: true },
    });
    if (twin)
      throw new Refused(
        'CONFLICT',
        `${twin.name} is among the contacts already${email ? ` with ${email}` : ', without an e-mail address'}: choose them, or give this one another name.`,
        'name',
      );
    const { id } = await tx.contact.create({
      data: { shopId, name, email, phone, ...address },
      select: { id: true },
    });
    return id;
  });
}
