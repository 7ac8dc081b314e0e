import type { Client } from '@fairlead/database';
import express, { type Express, type Request, type Response } from 'express';
import { allow, createContext, type Viewer } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { globalId, keyOf } from '../ids.ts';
import { LARGEST_BYTES } from './read-history-file.ts';
import { stageUpload } from './stage-upload.ts';

export interface UploadParts {
  client: Client;
  viewerOf(request: Request): Promise<Viewer | null>;
  uploadsDir: string;
  now?: () => Date;
}

// Compressed bodies are refused: a small one could unpack to a very large one.
const body = express.raw({ type: () => true, limit: LARGEST_BYTES, inflate: false });

const bodyOf = (request: Request, response: Response): Promise<Buffer> =>
  new Promise((resolve, reject) => {
    body(request, response, (error?: unknown) => {
      if (!error) return resolve(Buffer.isBuffer(request.body) ? request.body : Buffer.alloc(0));
      const status = typeof error === 'object' && 'status' in error ? error.status : 400;
      reject(
        status === 413
          ? new Refused(
              'TOO_LARGE',
              `The file is larger than ${LARGEST_BYTES / 1024 / 1024} MB. Cut it in two: each part with the header row.`,
            )
          : new Refused(
              'BAD_INPUT',
              'The file did not arrive whole, or it was sent compressed: send its bytes as they are.',
            ),
      );
    });
  });

/**
 * `POST /history/uploads?name=jobs.csv` lays the bytes of one history file on the desk and answers {id};
 * `GET /history/uploads/:id/refused.csv` gives its refused rows with their reasons, to mend.
 */
export function mountHistoryUploads(app: Express, { viewerOf, ...parts }: UploadParts): void {
  const contextOf = async (request: Request) =>
    createContext({ ...parts, viewer: await viewerOf(request) });

  app.post('/history/uploads', async (request, response) => {
    const context = await contextOf(request);
    try {
      // A form on a foreign page cannot set a header of its own, so the cookie alone is not enough.
      if (request.get('x-fairlead') !== '1')
        throw new Refused(
          'FORBIDDEN',
          'A file is sent by the pages of the shop, with the header x-fairlead: 1; this request has none.',
        );
      // Before the body: nobody else's file is waited for.
      await allow(context, 'manager');
      const { name } = request.query;
      if (typeof name !== 'string' || /\p{Surrogate}/u.test(name))
        throw new Refused('BAD_INPUT', 'The name of the file is one text: ?name=jobs.csv.', 'name');
      const id = await stageUpload(context, { name, bytes: await bodyOf(request, response) });
      response
        .status(201)
        .set('cache-control', 'no-store')
        .json({ id: globalId('HistoryUpload', id) });
    } finally {
      await context.close();
    }
  });

  app.get('/history/uploads/:id/refused.csv', async (request, response) => {
    const context = await contextOf(request);
    try {
      await allow(context, 'front_desk', 'manager');
      const upload = await context.read.historyUpload.findUnique({
        where: { id: keyOf('HistoryUpload', request.params.id, 'id') },
        select: { fileName: true, refusedCsv: true },
      });
      if (!upload?.refusedCsv) throw notFound('file with refused rows');
      const name = `${upload.fileName.replace(/\.csv$/i, '')}.refused.csv`;
      response
        .status(200)
        .set({
          'content-type': 'text/csv; charset=utf-8',
          'content-disposition': `attachment; filename*=UTF-8''${encodeURIComponent(name)}`,
          'cache-control': 'no-store',
          'x-content-type-options': 'nosniff',
          'cross-origin-resource-policy': 'same-origin',
        })
        .end(upload.refusedCsv);
    } finally {
      await context.close();
    }
  });
}
