import { randomUUID } from 'node:crypto';
import { expect } from 'vitest';
import type { TestApi } from './api.ts';

/** What the server said of an upload. */
export interface UploadAnswer {
  status: number;
  /** Bytes that are at the shop; null where the answer does not say. */
  offset: number | null;
  length: number | null;
  location: string | null;
  /** The global id of the photo, when it is one by now. */
  photo: string | null;
  error: { code: string; message: string } | null;
}

/** What an upload says of itself; an id is made for one without. */
interface Said {
  id?: string;
  words?: string;
  /** The id of the upload of which it is the preview. */
  previewOf?: string;
}

const base64 = (words: string) => Buffer.from(words, 'utf8').toString('base64');

/** One request of the tus protocol, as the mechanic's page sends it. */
export async function tus(
  api: Pick<TestApi, 'origin'>,
  cookie: string,
  method: 'POST' | 'HEAD' | 'PATCH' | 'DELETE',
  address: string,
  { headers = {}, body }: { headers?: Record<string, string>; body?: Buffer } = {},
): Promise<UploadAnswer> {
  const response = await fetch(`${api.origin}${address}`, {
    method,
    headers: {
      cookie,
      'x-fairlead': '1',
      'tus-resumable': '1.0.0',
      ...(method === 'PATCH' && { 'content-type': 'application/offset+octet-stream' }),
      ...headers,
    },
    ...(body && { body: new Uint8Array(body) }),
  });
  const said = (await response.text().then((text) => {
    try {
      return JSON.parse(text) as unknown;
    } catch {
      return null;
    }
  })) as { error?: UploadAnswer['error'] } | null;
  const number = (name: string) => {
    const given = response.headers.get(name);
    return given === null ? null : Number(given);
  };
  return {
    status: response.status,
    offset: number('upload-offset'),
    length: number('upload-length'),
    location: response.headers.get('location'),
    photo: response.headers.get('fairlead-photo'),
    error: said?.error ?? null,
  };
}

/** Begins an upload. */
export const begin = (
  api: Pick<TestApi, 'origin'>,
  cookie: string,
  length: number,
  { id = randomUUID(), words = '', previewOf = '' }: Said = {},
) =>
  tus(api, cookie, 'POST', '/uploads', {
    headers: {
      'upload-length': String(length),
      'upload-metadata': Object.entries({ id, words, previewOf })
        .filter(([, value]) => value !== '')
        .map(([name, value]) => `${name} ${base64(value)}`)
        .join(','),
    },
  });

/** Sends bytes from an offset on. */
export const bring = (
  api: Pick<TestApi, 'origin'>,
  cookie: string,
  id: string,
  offset: number,
  body: Buffer,
) =>
  tus(api, cookie, 'PATCH', `/uploads/${id}`, {
    headers: { 'upload-offset': String(offset) },
    body,
  });

/** Sends a photo whole and answers what the last byte was answered. */
export async function upload(
  api: Pick<TestApi, 'origin'>,
  cookie: string,
  bytes: Buffer,
  { id = randomUUID(), ...said }: Said = {},
): Promise<UploadAnswer> {
  const begun = await begin(api, cookie, bytes.length, { id, ...said });
  if (begun.status !== 201 || begun.photo !== null) return begun;
  return bring(api, cookie, id, 0, bytes);
}

/** Sends a photo that is taken, and answers its id. */
export async function uploaded(
  api: Pick<TestApi, 'origin'>,
  cookie: string,
  bytes: Buffer,
  words = '',
): Promise<string> {
  const answer = await upload(api, cookie, bytes, { words });
  expect([answer.status, answer.error]).toEqual([204, null]);
  return answer.photo ?? '';
}
