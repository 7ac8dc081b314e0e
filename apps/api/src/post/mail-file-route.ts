import type { Client } from '@fairlead/database';
import type { Express, Request } from 'express';
import { allow, createContext, type Viewer } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { keyOf } from '../ids.ts';
import { readMailFile } from './mail-files.ts';

export interface MailFileParts {
  client: Client;
  viewerOf(request: Request): Promise<Viewer | null>;
  uploadsDir: string;
}

/** `GET /paper/mail/:id`: a paper as it went with a mail, byte for byte, for the front desk and the manager. */
export function mountMailFiles(
  app: Express,
  { client, viewerOf, uploadsDir }: MailFileParts,
): void {
  app.get('/paper/mail/:id', async (request, response) => {
    const context = createContext({ client, viewer: await viewerOf(request), uploadsDir });
    try {
      const { shopId } = await allow(context, 'front_desk', 'manager');
      const paper = await context.read.mailPaper.findUnique({
        where: { id: keyOf('MailPaper', request.params.id, 'id') },
        select: { files: true },
      });
      if (!paper) throw notFound('paper');
      const [file] = paper.files;
      if (!file)
        throw new Refused(
          'NOT_FOUND',
          'This paper is not drawn yet: that happens before its mail is first tried.',
        );
      await context.close();
      const bytes = await readMailFile(uploadsDir, shopId, file.sha256);
      response
        .status(200)
        .set({
          'content-type': file.mime,
          'content-disposition': `${file.mime === 'application/pdf' ? 'inline' : 'attachment'}; filename="${file.filename.replace(/[^A-Za-z0-9.-]/g, '-')}"`,
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
