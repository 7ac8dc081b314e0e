import type { Client } from '@fairlead/database';
import type { Express, Request } from 'express';
import { allow, createContext, type Viewer } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { globalId, keyOf } from '../ids.ts';
import { refuseForeignPage } from '../own-pages.ts';
import { wholeBody } from '../whole-body.ts';
import { LARGEST_BYTES } from './read-history-file.ts';
import { stageUpload } from './stage-upload.ts';

export interface UploadParts {
  client: Client;
  viewerOf(request: Request): Promise<Viewer | null>;
  uploadsDir: string;
  now?: () => Date;
}

const bodyOf = wholeBody({
  what: 'file',
  most: LARGEST_BYTES,
  instead: 'cut it in two, each part with the header row',
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
      refuseForeignPage(request, 'A file');
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
