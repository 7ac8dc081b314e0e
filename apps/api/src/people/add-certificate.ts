import type { CertificateKind } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { givenText, sayDay } from '../given.ts';
import { certificateWords } from './certificate-words.ts';
import { personHeld, refuseWhoLeft } from './for-change.ts';

export interface AddCertificateInput {
  personId: string;
  kind: CertificateKind;
  number: string;
  validFrom: Date;
  validUntil: Date | null;
}

/** Adds what somebody holds. Of one kind they hold one at a time: what a signature rests on is never in doubt. */
export async function addCertificate(
  context: Context,
  { personId, kind, validFrom, validUntil, ...input }: AddCertificateInput,
): Promise<string> {
  await allow(context, 'manager');
  const number = givenText(input.number, 'number', { least: 1, most: 60 });
  if (validUntil && validUntil < validFrom)
    throw new Refused(
      'BAD_INPUT',
      `validUntil is ${sayDay(validUntil)}, before validFrom, ${sayDay(validFrom)}: needed is a last day on or after the first.`,
      'validUntil',
    );
  return context.write(async (tx) => {
    // load
    const person = await personHeld(tx, personId);
    refuseWhoLeft(person);
    const other = await tx.certificate.findFirst({
      where: {
        personId,
        kind,
        ...(validUntil && { validFrom: { lte: validUntil } }),
        OR: [{ validUntil: null }, { validUntil: { gte: validFrom } }],
      },
    });
    // decide
    if (other)
      throw new Refused(
        'CONFLICT',
        `${person.name} holds a ${certificateWords[kind]} in that time already: number ${other.number}, from ${sayDay(other.validFrom)}${other.validUntil ? ` to ${sayDay(other.validUntil)}` : ''}. End that one first, or begin after it.`,
        'validFrom',
      );
    // save
    const { id } = await tx.certificate.create({
      data: { personId, kind, number, validFrom, validUntil },
      select: { id: true },
    });
    return id;
  });
}
