import type { Client } from '@fairlead/database';
import type { Express, Request } from 'express';
import { allow, createContext, type Viewer } from '../context.ts';
import { Refused } from '../errors.ts';
import { keyOf, parseGlobalId } from '../ids.ts';
import { kinds, plainName } from './kinds.ts';
import { paperAsked } from './sizes.ts';

export interface PaperParts {
  client: Client;
  viewerOf(request: Request): Promise<Viewer | null>;
  uploadsDir: string;
  webOrigin: string;
  now?: () => Date;
}

/** `GET /paper/:kind/:id.pdf?paper=a4|letter|sheet`: a document of the shop, for its people. */
export function mountPaper(app: Express, parts: PaperParts): void {
  const { client, viewerOf, uploadsDir, webOrigin, now = () => new Date() } = parts;
  app.get('/paper/:kind/:id.pdf', async (request, response) => {
    const context = createContext({ client, viewer: await viewerOf(request), uploadsDir, now });
    try {
      await allow(context, 'front_desk', 'mechanic', 'inspector', 'manager');
      const { kind: asked, id } = request.params;
      const kind = Object.hasOwn(kinds, asked) ? kinds[asked] : undefined;
      if (!kind)
        throw new Refused(
          'NOT_FOUND',
          `There is no paper "${asked.slice(0, 40)}"; there are ${Object.keys(kinds).join(', ')}.`,
        );
      const { typename } = parseGlobalId(id);
      if (!kind.of.includes(typename)) keyOf(kind.of[0], id, 'id');
      const paper = paperAsked(request.query['paper'], kind.papers);
      const ready = await kind.read(context, id, request.query);
      // Drawing takes long; no transaction waits for it.
      await context.close();
      const bytes = await ready.print({ paper, at: now(), uploadsDir, webOrigin });
      response
        .status(200)
        .set({
          'content-type': 'application/pdf',
          'content-disposition': `inline; filename="${plainName(ready.filename)}.pdf"`,
          'cache-control': 'no-store',
          'x-content-type-options': 'nosniff',
          'cross-origin-resource-policy': 'same-origin',
        })
        .end(bytes);
    } finally {
      await context.close();
    }
  });
}
