import { pipeline } from 'node:stream/promises';
import type { Client } from '@fairlead/database';
import type { Express, Request } from 'express';
import { createContext, type Viewer } from '../../context.ts';
import { Refused } from '../../errors.ts';
import { globalId, keyOf } from '../../ids.ts';
import { refuseForeignPage } from '../../own-pages.ts';
import { prepareArchive } from './prepare-archive.ts';
import { receiveArchive } from './receive-archive.ts';

export interface ArchiveParts {
  client: Client;
  viewerOf(request: Request): Promise<Viewer | null>;
  uploadsDir: string;
  now?: () => Date;
}

/**
 * `GET /archives/:aircraft.tar?decisions=with|without` hands out an aircraft's records, sealed;
 * `POST /archives/:aircraft?keys=FINGERPRINT,…` takes in those of another shop and answers {id}.
 */
export function mountArchives(app: Express, { viewerOf, ...parts }: ArchiveParts): void {
  const contextOf = async (request: Request) =>
    createContext({ ...parts, viewer: await viewerOf(request) });

  app.get('/archives/:id.tar', async (request, response) => {
    const context = await contextOf(request);
    try {
      const { decisions = 'with' } = request.query;
      if (decisions !== 'with' && decisions !== 'without')
        throw new Refused('BAD_INPUT', 'decisions is “with” or “without”.', 'decisions');
      const ready = await prepareArchive(context, {
        aircraftId: keyOf('Aircraft', request.params.id, 'id'),
        withDecisions: decisions === 'with',
      });
      try {
        await context.close();
        response.status(200).set({
          'content-type': 'application/x-tar',
          'content-disposition': `attachment; filename="${ready.filename.replace(/[^A-Za-z0-9-]+/g, '-')}.tar"`,
          'cache-control': 'no-store',
          'x-content-type-options': 'nosniff',
          'cross-origin-resource-policy': 'same-origin',
        });
        await pipeline(ready.stream(), response).catch((error: NodeJS.ErrnoException) => {
          // Somebody who stops the download is no fault; what they have has no seal.
          if (error.code !== 'ERR_STREAM_PREMATURE_CLOSE') throw error;
        });
      } finally {
        await ready.clear();
      }
    } finally {
      await context.close();
    }
  });

  app.post('/archives/:id', async (request, response) => {
    const context = await contextOf(request);
    try {
      refuseForeignPage(request, 'An archive');
      const { keys = '' } = request.query;
      if (typeof keys !== 'string')
        throw new Refused(
          'BAD_INPUT',
          'keys is one text: fingerprints with commas between.',
          'keys',
        );
      const id = await receiveArchive(context, {
        aircraftId: keyOf('Aircraft', request.params.id, 'id'),
        keys: keys
          .split(',')
          .map((key) => key.trim())
          .filter((key) => key !== ''),
        body: request,
      });
      response
        .status(201)
        .set('cache-control', 'no-store')
        .json({ id: globalId('ReceivedArchive', id) });
    } finally {
      await context.close();
    }
  });
}
