import { RequestProblem } from '../../graphql/request.ts';
import { makePreview } from './make-preview.ts';
import type { PendingPhoto } from './pending.ts';
import { previewIdOf, sendPiece } from './send-photo.ts';

/** How often the line broke under the preview of each photo. */
const broken = new Map<string, number>();
const MOST_BROKEN = 3;

/**
 * Sends the preview of a photo, if one can be made, and lets it join its finding. Whatever becomes of it, the photo follows.
 *
 * @param join lets the photo of that id join its finding
 * @throws RequestProblem where the line broke and the preview is worth another try, or somebody has to sign in first
 */
export async function sendPreview(
  { id, photo }: Pick<PendingPhoto, 'id' | 'photo'>,
  join: (photoId: string) => Promise<unknown>,
  make: (photo: Blob) => Promise<Blob | null> = makePreview,
): Promise<'sent' | 'none'> {
  const small = await make(photo);
  if (small === null) return 'none';
  try {
    const { photoId } = await sendPiece({ id: previewIdOf(id), photo: small, previewOf: id });
    if (photoId === null) return 'none';
    await join(photoId);
    return 'sent';
  } catch (problem) {
    if (!(problem instanceof RequestProblem)) throw problem;
    if (problem.kind === 'signIn') throw problem;
    const met = (broken.get(id) ?? 0) + 1;
    broken.set(id, met);
    // A line that is down takes no photo either: nothing is lost by trying the small one first again, for a while.
    if (problem.code === 'NETWORK' && met < MOST_BROKEN) throw problem;
    return 'none';
  }
}
