import { RequestProblem, request } from '../../graphql/request.ts';
import { ClockDocument, NoteFindingDocument, ReadCautionsDocument } from './bench-documents.ts';
import type { Pending } from './outbox-store.ts';

interface Uploaded {
  id?: string;
  error?: { code: string; message: string };
  errors?: { message: string }[];
}

/** Sends the bytes of one photo. @throws RequestProblem */
async function sendPhoto(photo: Blob): Promise<string> {
  const response = await fetch('/photos', {
    method: 'POST',
    credentials: 'same-origin',
    headers: { 'x-fairlead': '1', 'content-type': photo.type || 'application/octet-stream' },
    body: photo,
  }).catch((): never => {
    throw new RequestProblem('away', 'NETWORK', 'The shop’s server cannot be reached from here.');
  });
  const answer = (await response.json().catch(() => ({}))) as Uploaded;
  if (response.ok && answer.id !== undefined) return answer.id;
  const code = answer.error?.code ?? `HTTP_${response.status}`;
  const sentence =
    answer.error?.message ?? answer.errors?.[0]?.message ?? 'The photo was not taken.';
  if (response.status === 401) throw new RequestProblem('signIn', code, sentence);
  const away = response.status >= 500 || response.status === 429;
  throw new RequestProblem(away ? 'away' : 'refused', code, sentence);
}

type Answer = { result: { __typename: string; message?: string } };

/**
 * Sends one thing. `keep` is called after each photo that has arrived, so that it is not sent again.
 *
 * @throws RequestProblem; of kind `refused` with the server's sentence when it said no
 */
export async function sendPending(
  entry: Pending,
  keep: (entry: Pending) => Promise<unknown>,
): Promise<void> {
  const { result } = await answerTo(entry, keep);
  if (result.__typename === 'Refusal') {
    throw new RequestProblem('refused', 'REFUSED', result.message ?? 'The server said no.');
  }
}

async function answerTo(
  entry: Pending,
  keep: (entry: Pending) => Promise<unknown>,
): Promise<Answer> {
  if (entry.kind === 'clock') return request(ClockDocument, { input: entry.input });
  if (entry.kind === 'cautions') {
    return request(ReadCautionsDocument, { input: { itemId: entry.itemId } });
  }
  const photoIds = [...entry.photoIds];
  for (const photo of entry.photos.slice(photoIds.length)) {
    photoIds.push(await sendPhoto(photo));
    await keep({ ...entry, photoIds: [...photoIds] });
  }
  return request(NoteFindingDocument, { input: { ...entry.input, photoIds } });
}
