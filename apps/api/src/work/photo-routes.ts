import path from 'node:path';
import type { Client } from '@fairlead/database';
import express, { type Express, type Request, type Response } from 'express';
import { allow, createContext, type Viewer } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { globalId, keyOf } from '../ids.ts';
import { addPhoto, keepPicture, photoFile } from './photo-files.ts';
import { photoUrl } from './photo-url.ts';
import { MOST_BYTES, type PhotoSize, photoSizes } from './picture.ts';

export interface PhotoParts {
  client: Client;
  viewerOf(request: Request): Promise<Viewer | null>;
  uploadsDir: string;
}

const LONGEST_WORDS = 500;

// Compressed bodies are refused: a small one could unpack to a very large one.
const body = express.raw({ type: () => true, limit: MOST_BYTES, inflate: false });

const bodyOf = (request: Request, response: Response): Promise<Buffer> =>
  new Promise((resolve, reject) => {
    body(request, response, (error?: unknown) => {
      if (!error) return resolve(Buffer.isBuffer(request.body) ? request.body : Buffer.alloc(0));
      const status = typeof error === 'object' && 'status' in error ? error.status : 400;
      if (status === 413)
        return reject(
          new Refused(
            'TOO_LARGE',
            `The photo is larger than ${MOST_BYTES / 1024 / 1024} MB; send it smaller.`,
          ),
        );
      reject(
        new Refused(
          'BAD_INPUT',
          'The photo did not arrive whole, or it was sent compressed: send its bytes as they are.',
        ),
      );
    });
  });

/**
 * `POST /photos` takes the bytes of one picture and answers {id, url, thumbUrl, width, height};
 * `GET /photos/:id/:size` gives it back to the people of the shop.
 */
export function mountPhotos(app: Express, { client, viewerOf, uploadsDir }: PhotoParts): void {
  const contextOf = async (request: Request) =>
    createContext({ client, viewer: await viewerOf(request), uploadsDir });

  app.post('/photos', async (request, response) => {
    const context = await contextOf(request);
    try {
      // A form on a foreign page cannot set a header of its own, so the cookie alone is not enough.
      if (request.get('x-fairlead') !== '1')
        throw new Refused(
          'FORBIDDEN',
          'A photo is sent by the pages of the shop, with the header x-fairlead: 1; this request has none.',
        );
      const { shopId, personId } = await allow(
        context,
        'mechanic',
        'inspector',
        'front_desk',
        'manager',
      );
      const { words = '' } = request.query;
      if (
        typeof words !== 'string' ||
        words.length > LONGEST_WORDS ||
        words.includes('\0') ||
        /\p{Surrogate}/u.test(words)
      )
        throw new Refused(
          'BAD_INPUT',
          `The words to a photo are one text of at most ${LONGEST_WORDS} characters.`,
          'words',
        );
      const picture = await keepPicture(uploadsDir, shopId, await bodyOf(request, response));
      const id = await context.write((tx) =>
        addPhoto(tx, shopId, { picture, words, addedById: personId }),
      );
      response
        .status(201)
        .set('cache-control', 'no-store')
        .json({
          id: globalId('Photo', id),
          url: photoUrl(id, 'original'),
          thumbUrl: photoUrl(id, 'thumb'),
          width: picture.width,
          height: picture.height,
        });
    } finally {
      await context.close();
    }
  });

  app.get('/photos/:id/:size', async (request, response) => {
    const { id, size } = request.params;
    const context = await contextOf(request);
    try {
      await allow(context, 'mechanic', 'inspector', 'front_desk', 'manager');
      if (!Object.hasOwn(photoSizes, size))
        throw new Refused(
          'NOT_FOUND',
          `A photo has no size "${size.slice(0, 40)}"; there are ${Object.keys(photoSizes).join(', ')}.`,
        );
      const photo = await context.read.photo.findUnique({
        where: { id: keyOf('Photo', id, 'id') },
        select: { shopId: true, sha256: true, mime: true },
      });
      if (!photo) throw notFound('photo');
      await sendPhoto(
        response,
        uploadsDir,
        photoFile(photo.shopId, photo.sha256, size as PhotoSize),
        photo,
      );
    } finally {
      await context.close();
    }
  });
}

const FOR_THIS_SIGN_IN = 'private, max-age=31536000, immutable';

/** Its content never changes under its address. Only this browser may keep it, and unless said otherwise only for this sign-in. */
export function sendPhoto(
  response: Response,
  root: string,
  file: string,
  { mime, cacheControl = FOR_THIS_SIGN_IN }: { mime: string; cacheControl?: string },
): Promise<void> {
  response.set({
    'content-type': mime,
    'cache-control': cacheControl,
    vary: 'cookie',
    'x-content-type-options': 'nosniff',
    'content-security-policy': "default-src 'none'",
    'cross-origin-resource-policy': 'same-origin',
  });
  return new Promise((resolve, reject) => {
    response.sendFile(
      file,
      { root: path.resolve(root), cacheControl: false, dotfiles: 'deny' },
      (error?: Error) => {
        // Somebody who closes the page mid-way is no fault.
        if (!error || response.headersSent) return resolve();
        for (const name of ['content-type', 'cache-control', 'content-security-policy'])
          response.removeHeader(name);
        reject(notFound('photo file'));
      },
    );
  });
}
