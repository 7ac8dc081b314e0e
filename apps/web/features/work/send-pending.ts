import { RequestProblem, request } from '../../graphql/request.ts';
import {
  AddFindingPhotoDocument,
  ClockDocument,
  NoteFindingDocument,
  ReadCautionsDocument,
} from './bench-documents.ts';
import type { Pending } from './outbox-store.ts';
import { sendPiece } from './send-photo.ts';

type Answer = { result: { __typename: string; message?: string } };

/**
 * Sends one thing, of a photo the next piece. Returns null when it is through, else the bytes that the shop has by now.
 *
 * @throws RequestProblem; of kind `refused` with the server's sentence when it said no
 */
export async function sendPending(entry: Pending): Promise<number | null> {
  if (entry.kind !== 'photo') {
    taken(await answerTo(entry));
    return null;
  }
  const { sent, photoId } = await sendPiece(entry);
  if (photoId === null) return sent;
  taken(
    await request(AddFindingPhotoDocument, { input: { clientEventId: entry.finding, photoId } }),
  );
  return null;
}

function taken({ result }: Answer): void {
  if (result.__typename === 'Refusal')
    throw new RequestProblem('refused', 'REFUSED', result.message ?? 'The server said no.');
}

function answerTo(entry: Exclude<Pending, { kind: 'photo' }>): Promise<Answer> {
  if (entry.kind === 'clock') return request(ClockDocument, { input: entry.input });
  if (entry.kind === 'cautions')
    return request(ReadCautionsDocument, { input: { itemId: entry.itemId } });
  return request(NoteFindingDocument, { input: { ...entry.input, photoIds: [] } });
}
