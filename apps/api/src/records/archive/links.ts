import type { Tx } from '@fairlead/database';
import { type Content, type Link, writeLink } from '@fairlead/proof';
import type { Corrections } from './paper.ts';

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

/** Which links correct which, as their own contents say. */
export async function correctionsOf(
  read: Pick<Tx, '$queryRaw'>,
  aircraftId: string,
  upTo: number,
): Promise<Corrections> {
  const rows = await read.$queryRaw<{ by: string; bySeq: number; of: string; ofSeq: number }[]>`
    SELECT c.subject_id AS by, c.seq AS "bySeq", e.subject_id AS of, e.seq AS "ofSeq"
    FROM record_link c
    JOIN record_link e ON e.shop_id = c.shop_id AND e.aircraft_id = c.aircraft_id
      AND e.subject_id = (c.content::jsonb ->> 'corrects')::uuid
    WHERE c.aircraft_id = ${aircraftId}::uuid AND c.seq <= ${upTo} AND c.kind = 'entry'
      AND c.content LIKE '%"corrects":"%'`;
  return {
    by: new Map(rows.map(({ of, bySeq }) => [of, bySeq])),
    of: new Map(rows.map(({ by, ofSeq }) => [by, ofSeq])),
  };
}
