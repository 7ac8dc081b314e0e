import { TaxCategory } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { keptDocument } from '../document-files.ts';
import { notFound, Refused } from '../errors.ts';
import { givenText, sayDay } from '../given.ts';

export interface AddExemptionInput {
  /** Whose: one of them. */
  contactId: string | null;
  aircraftId: string | null;
  category: string;
  /** YYYY-MM-DD, both included. */
  from: string;
  until: string;
  /** In words, as it goes onto invoices. */
  reason: string;
  /** What the paper's file was called on the device. */
  name: string;
  /** The paper itself. */
  bytes: Buffer;
}

const LONGEST_DAYS = 3660;
const DAY = 86_400_000;

/** Keeps that somebody who pays, or an aircraft, is not taxed on a category for a time, with the paper that says so. */
export async function addExemption(context: Context, input: AddExemptionInput): Promise<string> {
  const { personId, shopId } = await allow(context, 'front_desk', 'manager');
  const { contactId, aircraftId } = input;
  if ((contactId === null) === (aircraftId === null))
    throw new Refused(
      'BAD_INPUT',
      `An exemption was given for ${contactId === null ? 'nobody' : 'a payer and an aircraft at once'}: needed is one of contact and aircraft.`,
      'contact',
    );
  const category = Object.values(TaxCategory).find((each) => each === input.category);
  if (!category)
    throw new Refused(
      'BAD_INPUT',
      `category is "${input.category.slice(0, 40)}": needed is one of ${Object.values(TaxCategory).join(', ')}.`,
      'category',
    );
  const reason = givenText(input.reason, 'reason', { least: 5, most: 300 });
  const name = givenText(input.name, 'name', { least: 1, most: 160 });
  const validFrom = givenDay(input.from, 'from');
  const validUntil = givenDay(input.until, 'until');
  const days = (validUntil.getTime() - validFrom.getTime()) / DAY;
  if (days < 0 || days > LONGEST_DAYS)
    throw new Refused(
      'BAD_INPUT',
      `An exemption from ${sayDay(validFrom)} until ${sayDay(validUntil)} was refused: needed are two days in order, at most ten years apart.`,
      'until',
    );
  if (contactId && !(await context.read.contact.findUnique({ where: { id: contactId } })))
    throw notFound('contact');
  if (aircraftId && !(await context.read.aircraft.findUnique({ where: { id: aircraftId } })))
    throw notFound('aircraft');
  const paper = await keptDocument(context, shopId, input.bytes);
  return context.write(async (tx) => {
    const same = { contactId, aircraftId, category, validFrom, validUntil, sha256: paper.sha256 };
    const known = await tx.taxExemption.findFirst({
      where: { ...same, reason, ends: { none: {} } },
      select: { id: true },
    });
    if (known) return known.id;
    const { id } = await tx.taxExemption.create({
      data: { ...same, ...paper, reason, name, at: context.now(), byId: personId },
      select: { id: true },
    });
    return id;
  });
}

function givenDay(given: string, field: string): Date {
  const day = new Date(`${given}T00:00:00Z`);
  if (!/^\d{4}-\d{2}-\d{2}$/.test(given) || Number.isNaN(+day) || sayDay(day) !== given)
    throw new Refused(
      'BAD_INPUT',
      `${field} is "${given.slice(0, 40)}": needed is a day such as 2031-05-04.`,
      field,
    );
  return day;
}
