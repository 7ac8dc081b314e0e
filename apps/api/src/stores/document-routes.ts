import type { Client } from '@fairlead/database';
import type { Express, Request } from 'express';
import { allow, createContext, type Viewer } from '../context.ts';
import { documentBody, sendDocument } from '../document-files.ts';
import { notFound, Refused } from '../errors.ts';
import { globalId, keyOf } from '../ids.ts';
import { refuseForeignPage } from '../own-pages.ts';
import { addLotDocument } from './add-lot-document.ts';

export interface DocumentParts {
  client: Client;
  viewerOf(request: Request): Promise<Viewer | null>;
  uploadsDir: string;
  now?: () => Date;
}

/**
 * `POST /certificates/:lot?name=tag.pdf` keeps the bytes of a release certificate with its lot and answers {id};
 * `GET /certificates/:id` gives it to the people of the shop.
 */
export function mountCertificates(app: Express, { viewerOf, ...parts }: DocumentParts): void {
  const contextOf = async (request: Request) =>
    createContext({ ...parts, viewer: await viewerOf(request) });

  app.post('/certificates/:lot', async (request, response) => {
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
      const lotId = keyOf('Lot', request.params.lot, 'lot');
      await context.close();
      const bytes = await documentBody(request, response);
      const id = await addLotDocument(context, { lotId, name, bytes });
      response
        .status(201)
        .set('cache-control', 'no-store')
        .json({ id: globalId('LotDocument', id) });
    } catch (error) {
      // Bytes that nobody reads any more would hold up the next request on the same line.
      if (!request.complete) response.set('connection', 'close');
      request.resume();
      throw error;
    } finally {
      await context.close();
    }
  });

  app.get('/certificates/:id', async (request, response) => {
    const context = await contextOf(request);
    try {
      await allow(context, 'mechanic', 'inspector', 'front_desk', 'manager');
      const document = await context.read.lotDocument.findUnique({
        where: { id: keyOf('LotDocument', request.params.id, 'id') },
        select: { shopId: true, sha256: true, mime: true, name: true },
      });
      if (!document) throw notFound('document');
      await context.close();
      await sendDocument(response, parts.uploadsDir, document);
    } finally {
      await context.close();
    }
  });
}
