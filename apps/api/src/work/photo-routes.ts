import path from 'node:path';
import type { Client } from '@fairlead/database';
import type { Express, Request, Response } from 'express';
import { allow, createContext, type Viewer } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { keyOf } from '../ids.ts';
import { photoFile } from './photo-files.ts';
import { type PhotoSize, photoSizes } from './picture.ts';

export interface PhotoParts {
  client: Client;
  viewerOf(request: Request): Promise<Viewer | null>;
  uploadsDir: string;
}

/** `GET /photos/:id/:size` gives a photo to the people of the shop. How one comes: upload-routes.ts. */
export function mountPhotos(app: Express, { client, viewerOf, uploadsDir }: PhotoParts): void {
  app.get('/photos/:id/:size', async (request, response) => {
    const { id, size } = request.params;
    const context = createContext({ client, viewer: await viewerOf(request), uploadsDir });
    try {
      await allow(context, 'mechanic', 'inspector', 'front_desk', 'manager');
      if (!Object.hasOwn(photoSizes, size))
        throw new Refused(
          'NOT_FOUND',
          `A photo has no size "${size.slice(0, 40)}"; there are ${Object.keys(photoSizes).join(', ')}.`,
        );
      const photo = await context.read.photo.findUnique({
        where: { id: keyOf('Photo', id, 'id') },
        select: { shopId: true, sha256: true, mime: true, preview: true },
      });
      if (!photo) throw notFound('photo');
      await sendPhoto(
        response,
        uploadsDir,
        photoFile(photo.shopId, photo.sha256, size as PhotoSize),
        {
          mime: photo.mime,
          // At the address of the photo itself, a preview is gone as soon as that is here.
          ...(photo.preview &&
            request.query['preview'] === undefined && { cacheControl: 'private, no-cache' }),
        },
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
        // Kept before there was a middle size: the next larger one does as well, and is as unchanging.
        if (file.endsWith('-middle.jpg')) {
          const larger = file.replace(/-middle\.jpg$/, '-large.jpg');
          return resolve(sendPhoto(response, root, larger, { mime, cacheControl }));
        }
        for (const name of ['content-type', 'cache-control', 'content-security-policy'])
          response.removeHeader(name);
        reject(notFound('photo file'));
      },
    );
  });
}
