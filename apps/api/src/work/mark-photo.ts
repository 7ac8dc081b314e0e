import type { Prisma } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound } from '../errors.ts';
import { givenMarks, type PhotoMark } from './photo-marks.ts';

/** Puts arrows, rings and words over a photo in place of those before; the photo itself is never touched. */
export async function markPhoto(
  context: Context,
  input: { photoId: string; marks: readonly PhotoMark[] },
): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const marks = givenMarks(input.marks);
  return context.write(async (tx) => {
    // load
    const photo = await tx.photo.findUnique({ where: { id: input.photoId }, select: { id: true } });
    if (!photo) throw notFound('photo');
    // save
    await tx.photoMarking.create({
      data: {
        photoId: photo.id,
        marks: marks as unknown as Prisma.InputJsonValue,
        at: context.now(),
        byId: personId,
      },
    });
    return photo.id;
  });
}
