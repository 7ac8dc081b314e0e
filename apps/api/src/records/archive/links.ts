import type { Tx } from '@fairlead/database';
import { type Content, type Link, writeLink } from '@fairlead/proof';

const PAGE = 200;

/**
 * The links of an aircraft's chain, in order, up to a number: read page by page, so that a long history is never in
 * memory whole.
 *
 * @param withDecisions false: what owners decided is left out of its link; its digest stays
 */
export async function* linksOf(
  read: Pick<Tx, 'recordLink'>,
  aircraftId: string,
  upTo: number,
  withDecisions: boolean,
): AsyncGenerator<{ link: Link; line: string; hash: string }> {
  for (let after = 0; after < upTo; after += PAGE) {
    const rows = await read.recordLink.findMany({
      where: { aircraftId, seq: { gt: after, lte: Math.min(after + PAGE, upTo) } },
      orderBy: { seq: 'asc' },
      select: { kind: true, statement: true, content: true, signature: true, hash: true },
    });
    for (const { kind, statement, content, signature, hash } of rows) {
      const link: Link = {
        statement: JSON.parse(statement) as Link['statement'],
        content: kind === 'decision' && !withDecisions ? null : (JSON.parse(content) as Content),
        signature,
      };
      yield { link, line: writeLink(link), hash: Buffer.from(hash).toString('hex') };
    }
  }
}
