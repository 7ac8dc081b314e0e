import type { Client } from '@fairlead/database';
import type { Express, Request } from 'express';
import { allow, createContext, type Viewer } from '../context.ts';
import { documentBody, sendDocument } from '../document-files.ts';
import { notFound, Refused } from '../errors.ts';
import { globalId, keyOf } from '../ids.ts';
import { refuseForeignPage } from '../own-pages.ts';
import { addExemption } from './add-exemption.ts';

export interface ExemptionParts {
  client: Client;
  viewerOf(request: Request): Promise<Viewer | null>;
  uploadsDir: string;
  now?: () => Date;
}

/**
 * `POST /exemptions?contact=…&category=parts&from=…&until=…&reason=…&name=paper.pdf` keeps an exemption from tax with the
 * paper that says so, the bytes of its body, and answers {id}; there is none without. `GET /exemptions/:id` gives the paper
 * to the desk.
 */
export function mountExemptions(app: Express, { viewerOf, ...parts }: ExemptionParts): void {
  const contextOf = async (request: Request) =>
    createContext({ ...parts, viewer: await viewerOf(request) });

  app.post('/exemptions', async (request, response) => {
    const context = await contextOf(request);
    try {
      refuseForeignPage(request, 'A document');
      // Before the body: nobody else's file is waited for.
      await allow(context, 'front_desk', 'manager');
      const said = (field: string) => textOf(request, field);
      const terms = {
        contactId: said('contact') === '' ? null : keyOf('Contact', said('contact'), 'contact'),
        aircraftId:
          said('aircraft') === '' ? null : keyOf('Aircraft', said('aircraft'), 'aircraft'),
        ...{ category: said('category'), from: said('from'), until: said('until') },
        ...{ reason: said('reason'), name: said('name') },
      };
      await context.close();
      const bytes = await documentBody(request, response);
      const id = await addExemption(context, { ...terms, bytes });
      response
        .status(201)
        .set('cache-control', 'no-store')
        .json({ id: globalId('TaxExemption', id) });
    } catch (error) {
      // Bytes that nobody reads any more would hold up the next request on the same line.
      if (!request.complete) response.set('connection', 'close');
      request.resume();
      throw error;
    } finally {
      await context.close();
    }
  });

  app.get('/exemptions/:id', async (request, response) => {
    const context = await contextOf(request);
    try {
      await allow(context, 'front_desk', 'manager');
      const paper = await context.read.taxExemption.findUnique({
        where: { id: keyOf('TaxExemption', request.params.id, 'id') },
        select: { shopId: true, sha256: true, mime: true, name: true },
      });
      if (!paper) throw notFound('document');
      await context.close();
      await sendDocument(response, parts.uploadsDir, paper);
    } finally {
      await context.close();
    }
  });
}

/** One text of the address, or nothing. */
function textOf({ query }: Request, field: string): string {
  const value = query[field] ?? '';
  if (typeof value !== 'string' || /[\p{Surrogate}\0]/u.test(value))
    throw new Refused('BAD_INPUT', `${field} is given more than once or is no text.`, field);
  return value;
}
