import type { Prisma } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { holdFor } from '../hold.ts';
import { cameBefore, type GivenMoment, givenMoment } from './given-moment.ts';
import { givenMarks, type PhotoMark } from './photo-marks.ts';
import { sayWhen } from './say-when.ts';

export interface MarkPhotoInput extends GivenMoment {
  photoId: string;
  marks: readonly PhotoMark[];
}

/**
 * Puts arrows, rings and words over a photo in place of those before; the photo itself is never touched. What was drawn
 * before somebody else drew, and comes after, is refused: it would wipe what they drew, without having seen it.
 */
export async function markPhoto(context: Context, input: MarkPhotoInput): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const marks = givenMarks(input.marks);
  const { at, clientEventId } = givenMoment(input, context);
  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'marks', input.photoId);
    const photo = await tx.photo.findUnique({
      where: { id: input.photoId },
      select: {
        id: true,
        markings: {
          orderBy: { id: 'desc' },
          take: 1,
          select: { at: true, byId: true, by: { select: { name: true } } },
        },
      },
    });
    if (!photo) throw notFound('photo');
    const known =
      clientEventId === null ? null : await tx.photoMarking.findFirst({ where: { clientEventId } });
    // decide
    if (cameBefore(known, personId, known?.photoId === photo.id)) return photo.id;
    const [newest] = photo.markings;
    if (newest && newest.byId !== personId && newest.at > at) {
      const { timeZone } = await tx.shop.findFirstOrThrow({ select: { timeZone: true } });
      throw new Refused(
        'CONFLICT',
        `${newest.by.name} marked this photo ${sayWhen(newest.at, timeZone)}, after you did ${sayWhen(at, timeZone)}: theirs stay. Look at them, then mark it again if yours are needed too.`,
      );
    }
    // save
    await tx.photoMarking.create({
      data: {
        ...{ photoId: photo.id, at, clientEventId, byId: personId },
        marks: marks as unknown as Prisma.InputJsonValue,
      },
      select: { id: true },
    });
    return photo.id;
  });
}
