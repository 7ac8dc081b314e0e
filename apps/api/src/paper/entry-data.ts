import type { Context } from '../context.ts';
import { notFound } from '../errors.ts';
import { ask, type PaperShop, SHOP } from './ask.ts';
import type { bookWords, certificateWords } from './entry-words.ts';
import { FINDING_PHOTOS, type FindingPhotos } from './pictures.ts';

export const ENTRY = `query EntryPaper($id: ID!) {
  ${SHOP}
  node(id: $id) { ... on RecordEntry {
    rule text completedOn tisHundredths outcome signature signedAt certificateKind certificateNumber chainHash cautions
    proof { number hash key }
    book { kind title }
    corrections { signedAt signedBy { name } }
    corrects { signedAt signedBy { name } }
    discrepancies { class words inoperative finding { number title ${FINDING_PHOTOS} } }
    order { number title aircraft { registration serial model { maker name } } }
  } }
}`;

export interface Entry {
  rule: 'maintenance' | 'inspection';
  text: string;
  completedOn: string;
  tisHundredths: number;
  outcome: 'airworthy' | 'not_airworthy_list_given';
  signature: string;
  signedAt: string;
  certificateKind: keyof typeof certificateWords;
  certificateNumber: string;
  chainHash: string | null;
  proof: { number: number; hash: string; key: string } | null;
  cautions: string[];
  book: { kind: keyof typeof bookWords; title: string };
  corrections: { signedAt: string; signedBy: { name: string } }[];
  corrects: { signedAt: string; signedBy: { name: string } } | null;
  discrepancies: {
    class: 'unairworthy' | 'discrepancy' | 'observation';
    words: string;
    inoperative: boolean;
    finding: FindingPhotos;
  }[];
  order: {
    number: number;
    title: string;
    aircraft: { registration: string; serial: string; model: { maker: string; name: string } };
  };
}

export async function readEntry(
  context: Context,
  id: string,
): Promise<{ entry: Entry; shop: PaperShop }> {
  const { node, viewer } = await ask<{ node: Entry | null; viewer: { shop: PaperShop } }>(
    context,
    ENTRY,
    { id },
  );
  if (!node) throw notFound('entry');
  return { entry: node, shop: viewer.shop };
}
