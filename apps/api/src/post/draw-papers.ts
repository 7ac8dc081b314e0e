import { type Client, inShop } from '@fairlead/database';
import { type Context, createContext } from '../context.ts';
import { newId } from '../new-id.ts';
import type { MailAtHand } from './mail-at-hand.ts';
import { keepMailFile } from './mail-files.ts';

export interface DrawnPaper {
  filename: string;
  mime: string;
  bytes: Buffer;
}

/** Draws one kind of paper from what it is printed from. */
export type DrawPaper = (
  context: Context,
  paper: { paper: string; subject: string },
) => Promise<DrawnPaper>;

/** The program itself reads what the front desk may read: the papers of a mail were asked for by somebody who might. */
const asDesk = (client: Client, shopId: string, uploadsDir: string): Context => ({
  ...createContext({
    client,
    viewer: { accountId: '', shopId, personId: '', shared: false },
    uploadsDir,
  }),
  roles: () => Promise.resolve(['front_desk']),
});

/** Draws the papers of a mail that are not drawn yet, and keeps them: whatever happens, each is drawn once. */
export async function drawPapers(
  { client, uploadsDir, draw }: { client: Client; uploadsDir: string; draw: DrawPaper },
  mail: MailAtHand,
): Promise<void> {
  for (const paper of mail.papers.filter(({ files }) => files.length === 0)) {
    const context = asDesk(client, mail.shopId, uploadsDir);
    const { filename, mime, bytes } = await draw(context, paper).finally(() => context.close());
    const sha256 = await keepMailFile(uploadsDir, mail.shopId, bytes);
    await inShop(client, { shopId: mail.shopId, personId: null, requestId: newId() }, (tx) =>
      tx.mailFile.create({
        data: { paperId: paper.id, filename, mime, sha256, bytes: bytes.length },
        select: { id: true },
      }),
    );
  }
}
