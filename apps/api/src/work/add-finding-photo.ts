import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { holdFor } from '../hold.ts';
import { clientId, MOST_PHOTOS } from './limits.ts';

export interface AddFindingPhotoInput {
  /** Of the finding: the id that its device made, because the device may not know another yet. */
  clientEventId: string;
  photoId: string;
  /** The photo of the same finding that shows the same before the correction. */
  beforeId: string | null;
}

/** A photo joins a finding that was noted before it was through. Sent twice, it joins once. */
export async function addFindingPhoto(
  context: Context,
  input: AddFindingPhotoInput,
): Promise<string> {
  await allow(context, 'mechanic', 'inspector', 'manager');
  const clientEventId = clientId(input.clientEventId);

  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'photos of finding', clientEventId);
    const finding = await tx.finding.findFirst({
      where: { clientEventId },
      select: {
        id: true,
        number: true,
        photos: { select: { photoId: true, position: true, beforeId: true } },
      },
    });
    if (!finding) throw notFound('finding');
    const photo = await tx.photo.findUnique({ where: { id: input.photoId }, select: { id: true } });
    if (!photo) throw notFound('photo');
    // decide
    const { id: findingId, number, photos } = finding;
    if (photos.some(({ photoId }) => photoId === photo.id)) return findingId;
    if (photos.length >= MOST_PHOTOS)
      throw new Refused(
        'AGAINST_RULE',
        `Finding ${number} has ${photos.length} photos already: it holds ${MOST_PHOTOS}.`,
        'photoId',
      );
    const { beforeId } = input;
    const before = photos.find(({ photoId }) => photoId === beforeId);
    if (beforeId !== null && (before === undefined || before.beforeId !== null))
      throw new Refused(
        'BAD_INPUT',
        before === undefined
          ? `The photo of before is none of finding ${number}: needed is one of its own.`
          : 'The photo named as of before was itself taken after the correction: needed is one of before.',
        'beforeId',
      );
    // save
    const position = Math.max(0, ...photos.map((each) => each.position)) + 1;
    await tx.findingPhoto.create({ data: { findingId, photoId: photo.id, position, beforeId } });
    return findingId;
  });
}
