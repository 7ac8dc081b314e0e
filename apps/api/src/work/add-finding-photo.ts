import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { holdFor } from '../hold.ts';
import { clientId, MOST_PHOTOS } from './limits.ts';

/**
 * A photo joins a finding that was noted before it was through. Sent twice, it joins once.
 *
 * @param input the finding by the id that its device made, because the device may not know another yet
 */
export async function addFindingPhoto(
  context: Context,
  input: { clientEventId: string; photoId: string },
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
        photos: { select: { photoId: true, position: true } },
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
    // save
    const position = Math.max(0, ...photos.map((each) => each.position)) + 1;
    await tx.findingPhoto.create({ data: { findingId, photoId: photo.id, position } });
    return findingId;
  });
}
