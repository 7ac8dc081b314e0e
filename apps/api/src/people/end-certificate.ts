import { civilDay } from '../civil-day.ts';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { sayDay } from '../given.ts';
import { personHeld } from './for-change.ts';

/** Sets the last day of a certificate: earlier than before, and not before what was signed on it. */
export async function endCertificate(
  context: Context,
  { certificateId, lastDay }: { certificateId: string; lastDay: Date },
): Promise<string> {
  await allow(context, 'manager');
  return context.write(async (tx) => {
    // load
    const found = await tx.certificate.findUnique({
      where: { id: certificateId },
      select: { personId: true },
    });
    if (!found) throw notFound('certificate');
    const person = await personHeld(tx, found.personId);
    const certificate = await tx.certificate.findUniqueOrThrow({ where: { id: certificateId } });
    const { timeZone } = await tx.shop.findFirstOrThrow({ select: { timeZone: true } });
    const signed = await tx.recordEntry.findFirst({
      where: {
        signedById: person.id,
        certificateKind: certificate.kind,
        certificateNumber: certificate.number,
      },
      orderBy: { signedAt: 'desc' },
      select: { signedAt: true },
    });
    // decide
    if (lastDay < certificate.validFrom)
      throw new Refused(
        'BAD_INPUT',
        `The last day was given as ${sayDay(lastDay)}, before the first, ${sayDay(certificate.validFrom)}.`,
        'lastDay',
      );
    if (certificate.validUntil && lastDay >= certificate.validUntil)
      throw new Refused(
        'CONFLICT',
        `It ends on ${sayDay(certificate.validUntil)} already, and ${sayDay(lastDay)} is not earlier. A certificate that goes on is a new one, from the day after.`,
        'lastDay',
      );
    const lastSigned = signed ? civilDay(signed.signedAt, timeZone) : null;
    if (lastSigned && lastDay < lastSigned)
      throw new Refused(
        'AGAINST_RULE',
        `${person.name} signed on it on ${sayDay(lastSigned)}: it cannot have ended on ${sayDay(lastDay)}. If that entry should not have been signed, correct the entry.`,
        'lastDay',
      );
    // save
    await tx.certificate.update({
      where: { id: certificate.id },
      data: { validUntil: lastDay },
      select: { id: true },
    });
    return certificate.id;
  });
}
