import type { Express } from 'express';
import { eInvoice } from '../books/index.ts';
import { allow, createContext } from '../context.ts';
import { keyOf } from '../ids.ts';
import type { PaperParts } from './paper-routes.ts';

/** `GET /paper/invoice/:id.xml`: an issued invoice or credit note for a program to read, for whoever may have its PDF. */
export function mountEInvoice(
  app: Express,
  { client, viewerOf, uploadsDir, now = () => new Date() }: PaperParts,
): void {
  app.get('/paper/invoice/:id.xml', async (request, response) => {
    const context = createContext({ client, viewer: await viewerOf(request), uploadsDir, now });
    try {
      await allow(context, 'front_desk', 'mechanic', 'inspector', 'manager');
      const { filename, xml } = await eInvoice(context, keyOf('Invoice', request.params.id, 'id'));
      response
        .status(200)
        .set({
          'content-type': 'application/xml; charset=utf-8',
          'content-disposition': `attachment; filename="${filename}"`,
          'cache-control': 'no-store',
          'x-content-type-options': 'nosniff',
          'cross-origin-resource-policy': 'same-origin',
        })
        .end(xml);
    } finally {
      await context.close();
    }
  });
}
