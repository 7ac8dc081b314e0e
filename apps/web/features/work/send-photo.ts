import { RequestProblem } from '../../graphql/request.ts';

/**
 * The little of the tus protocol 1.0.0 that a page needs: creation, HEAD, PATCH. In pieces, because what forwards to the
 * API waits for a whole request: a piece is what a broken line can cost, and what the page can tell of progress.
 */
const PIECE = 512 * 1024;

export interface Progress {
  /** Bytes that the shop has. */
  sent: number;
  /** Its id, once it is a photo there. */
  photoId: string | null;
}

export interface Sent {
  id: string;
  photo: Blob;
  /** The id of the photo that it stands for until that is through. */
  previewOf?: string;
}

/** How far each photo is, by the shop's last answer. Forgotten when there was none: then the shop is asked. */
const known = new Map<string, Progress>();

/**
 * Sends the next piece of a photo, from where the shop has it.
 *
 * @param id a UUID made by this device; sent again, it is the same photo
 * @throws RequestProblem; of kind `refused` with the server's sentence when it is not taken
 */
export async function sendPiece(upload: Sent): Promise<Progress> {
  const { id, photo } = upload;
  const at = known.get(id) ?? (await begin(upload));
  known.delete(id);
  if (at.photoId !== null) return at;
  const next = progressOf(
    await ask('PATCH', `/uploads/${id}`, photo.slice(at.sent, at.sent + PIECE), {
      'upload-offset': String(at.sent),
      'content-type': 'application/offset+octet-stream',
    }),
  );
  if (next.photoId === null) known.set(id, next);
  return next;
}

/** The id under which the preview of a photo goes: always the same one, so that what was begun goes on. */
export const previewIdOf = (id: string): string =>
  id.slice(0, -1) + (Number.parseInt(id.slice(-1), 16) ^ 1).toString(16);

async function begin({ id, photo, previewOf }: Sent): Promise<Progress> {
  try {
    return progressOf(
      await ask('POST', '/uploads', null, {
        'upload-length': String(photo.size),
        'upload-metadata': `id ${btoa(id)}${previewOf === undefined ? '' : `,previewOf ${btoa(previewOf)}`}`,
      }),
    );
  } catch (problem) {
    if (!(problem instanceof RequestProblem) || problem.code !== 'CONFLICT') throw problem;
    // Begun before: on this page before the line broke, or before a reload.
    return progressOf(await ask('HEAD', `/uploads/${id}`, null, {}));
  }
}

const progressOf = ({ headers }: Response): Progress => ({
  sent: Number(headers.get('upload-offset') ?? 0),
  photoId: headers.get('fairlead-photo'),
});

async function ask(
  method: string,
  address: string,
  body: Blob | null,
  headers: Record<string, string>,
): Promise<Response> {
  const response = await fetch(address, {
    method,
    credentials: 'same-origin',
    headers: { 'x-fairlead': '1', 'tus-resumable': '1.0.0', ...headers },
    body,
  }).catch(async (): Promise<never> => {
    if (await isGone(body))
      throw new RequestProblem(
        'refused',
        'GONE',
        'This device no longer gives the photo away: take it again.',
      );
    throw new RequestProblem('away', 'NETWORK', 'The shop’s server cannot be reached from here.');
  });
  if (response.ok) return response;
  const said = ((await response.json().catch(() => null)) as Said | null)?.error;
  const code = said?.code ?? `HTTP_${response.status}`;
  const sentence = said?.message ?? 'The photo was not taken.';
  if (response.status === 401) throw new RequestProblem('signIn', code, sentence);
  // Elsewhere the same photo went on, or what was here of it is swept: next time the shop is asked first.
  const asksAgain = method === 'PATCH' && (response.status === 404 || response.status === 409);
  const away = response.status >= 500 || response.status === 429 || asksAgain;
  throw new RequestProblem(away ? 'away' : 'refused', code, sentence);
}

interface Said {
  error?: { code: string; message: string };
}

const isGone = async (body: Blob | null): Promise<boolean> =>
  body !== null &&
  (await body
    .slice(0, 1)
    .arrayBuffer()
    .then(() => false)
    .catch(() => true));
