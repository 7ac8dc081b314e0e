import { afterEach, describe, expect, it, vi } from 'vitest';
import { sendPiece } from '../features/work/send-photo.ts';

const PIECE = 512 * 1024;
const photo = new Blob([new Uint8Array(PIECE + 100)]);
let ids = 0;
const newId = () => `${(ids += 1)}`.padStart(36, '0');

type Call = { method: string; address: string; offset: string | null; size: number };

/** A shop that keeps what comes; `broken` says at which requests, counted from 1, the line breaks. */
function shop(broken: number[] = []) {
  const calls: Call[] = [];
  let here: number | null = null;
  vi.stubGlobal('fetch', async (address: string, init: RequestInit) => {
    const headers = new Headers(init.headers);
    const body = init.body as Blob | null;
    const method = init.method ?? 'GET';
    calls.push({ method, address, offset: headers.get('upload-offset'), size: body?.size ?? 0 });
    if (broken.includes(calls.length)) throw new TypeError('Failed to fetch');
    if (method === 'POST') {
      if (here !== null)
        return Response.json({ error: { code: 'CONFLICT', message: 'begun' } }, { status: 409 });
      here = 0;
      return new Response(null, { status: 201 });
    }
    if (method === 'PATCH') here = Number(headers.get('upload-offset')) + (body?.size ?? 0);
    const done = here === photo.size ? { 'fairlead-photo': 'UGhvdG8' } : {};
    return new Response(null, {
      status: method === 'PATCH' ? 204 : 200,
      headers: { 'upload-offset': String(here), ...(method === 'PATCH' && done) },
    });
  });
  return calls;
}

afterEach(() => vi.unstubAllGlobals());

describe('sending a photo in pieces', () => {
  it('creates it once, then sends piece by piece until it is a photo', async () => {
    const calls = shop();
    const id = newId();
    expect(await sendPiece({ id, photo })).toEqual({ sent: PIECE, photoId: null });
    expect(await sendPiece({ id, photo })).toEqual({ sent: photo.size, photoId: 'UGhvdG8' });
    expect(calls).toEqual([
      { method: 'POST', address: '/uploads', offset: null, size: 0 },
      { method: 'PATCH', address: `/uploads/${id}`, offset: '0', size: PIECE },
      { method: 'PATCH', address: `/uploads/${id}`, offset: String(PIECE), size: 100 },
    ]);
  });

  it('after a broken line asks the shop how far it is, and goes on from there', async () => {
    const calls = shop([3]);
    const id = newId();
    await sendPiece({ id, photo });
    await expect(sendPiece({ id, photo })).rejects.toMatchObject({ kind: 'away', code: 'NETWORK' });
    expect(await sendPiece({ id, photo })).toMatchObject({ photoId: 'UGhvdG8' });
    expect(calls.slice(3).map(({ method, offset }) => [method, offset])).toEqual([
      ['POST', null],
      ['HEAD', null],
      ['PATCH', String(PIECE)],
    ]);
  });

  it('hands on the sentence of a refusal, and tells a shop that is away from one that says no', async () => {
    const answering = (status: number, code: string) =>
      vi.stubGlobal('fetch', async () =>
        Response.json({ error: { code, message: 'A sentence.' } }, { status }),
      );
    for (const [status, code, kind] of [
      [400, 'BAD_INPUT', 'refused'],
      [413, 'TOO_LARGE', 'refused'],
      [401, 'SIGN_IN_NEEDED', 'signIn'],
      [503, 'UNAVAILABLE', 'away'],
    ] as const) {
      answering(status, code);
      await expect(sendPiece({ id: newId(), photo })).rejects.toMatchObject({
        kind,
        code,
        message: 'A sentence.',
      });
    }
  });

  it('says so where the device no longer gives the photo away', async () => {
    vi.stubGlobal('fetch', async (_address: string, init: RequestInit) => {
      if (init.method === 'POST') return new Response(null, { status: 201 });
      throw new TypeError('Failed to fetch');
    });
    const gone = {
      size: 10,
      slice: () => ({
        slice: () => ({ arrayBuffer: () => Promise.reject(new Error('NotReadable')) }),
      }),
    } as unknown as Blob;
    await expect(sendPiece({ id: newId(), photo: gone })).rejects.toMatchObject({
      kind: 'refused',
      message: 'This device no longer gives the photo away: take it again.',
    });
  });
});
