import type { Client } from '@fairlead/database';
import type { Express, Request } from 'express';
import { allow, type Context, createContext, type Viewer } from '../context.ts';
import { documentBody, sendDocument } from '../document-files.ts';
import { notFound, Refused } from '../errors.ts';
import { globalId, keyOf } from '../ids.ts';
import { refuseForeignPage } from '../own-pages.ts';
import { addLotDocument } from './add-lot-document.ts';
import { addOutsideDocument } from './outside/add-outside-document.ts';

export interface DocumentParts {
  client: Client;
  viewerOf(request: Request): Promise<Viewer | null>;
  uploadsDir: string;
  now?: () => Date;
}

/**
 * `POST /certificates/:lot?name=tag.pdf` keeps the bytes of a release certificate with its lot and answers {id};
 * `GET /certificates/:id` gives it to the people of the shop. Below `/certificates/outside/` the same for the release tag of
 * outside work.
 */
export function mountCertificates(app: Express, { viewerOf, ...parts }: DocumentParts): void {
  const contextOf = async (request: Request) =>
    createContext({ ...parts, viewer: await viewerOf(request) });

  const take = (
    path: string,
    of: { type: 'Lot' | 'OutsideJob'; field: string },
    keep: (
      context: Context,
      key: string,
      document: { name: string; bytes: Buffer },
    ) => Promise<string>,
  ) =>
    app.post(path, async (request, response) => {
      const context = await contextOf(request);
      try {
        refuseForeignPage(request, 'A document');
        // Before the body: nobody else's file is waited for.
        await allow(context, 'mechanic', 'inspector', 'front_desk', 'manager');
        const { name } = request.query;
        if (typeof name !== 'string' || /[\p{Surrogate}\0]/u.test(name))
          throw new Refused(
            'BAD_INPUT',
            'The name of the document is one text: ?name=tag.pdf.',
            'name',
          );
        const key = keyOf(of.type, String(request.params['of']), of.field);
        await context.close();
        const bytes = await documentBody(request, response);
        const id = await keep(context, key, { name, bytes });
        response.status(201).set('cache-control', 'no-store').json({ id });
      } catch (error) {
        // Bytes that nobody reads any more would hold up the next request on the same line.
        if (!request.complete) response.set('connection', 'close');
        request.resume();
        throw error;
      } finally {
        await context.close();
      }
    });
  const give = (
    path: string,
    find: (context: Context, id: string) => Promise<KeptDocument | null>,
  ) =>
    app.get(path, async (request, response) => {
      const context = await contextOf(request);
      try {
        await allow(context, 'mechanic', 'inspector', 'front_desk', 'manager');
        const document = await find(context, String(request.params['id']));
        if (!document) throw notFound('document');
        await context.close();
        await sendDocument(response, parts.uploadsDir, document);
      } finally {
        await context.close();
      }
    });

  take('/certificates/:of', { type: 'Lot', field: 'lot' }, async (context, lotId, document) =>
    globalId('LotDocument', await addLotDocument(context, { lotId, ...document })),
  );
  take(
    '/certificates/outside/:of',
    { type: 'OutsideJob', field: 'job' },
    async (context, jobId, document) =>
      globalId('OutsideDocument', await addOutsideDocument(context, { jobId, ...document })),
  );
  const select = { shopId: true, sha256: true, mime: true, name: true } as const;
  give('/certificates/:id', ({ read }, id) =>
    read.lotDocument.findUnique({ where: { id: keyOf('LotDocument', id, 'id') }, select }),
  );
  give('/certificates/outside/:id', ({ read }, id) =>
    read.outsideDocument.findUnique({ where: { id: keyOf('OutsideDocument', id, 'id') }, select }),
  );
}

interface KeptDocument {
  shopId: string;
  sha256: string;
  mime: string;
  name: string;
}
