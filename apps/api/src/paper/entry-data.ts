import type { Context } from '../context.ts';
import { notFound } from '../errors.ts';
import { ask, type PaperShop, SHOP } from './ask.ts';

export const ENTRY = `query EntryPaper($id: ID!) {
  ${SHOP}
  node(id: $id) { ... on RecordEntry {
    rule text completedOn tisHundredths outcome signature signedAt certificateKind certificateNumber chainHash cautions
    book { kind title }
    corrections { id }
    discrepancies { class words finding { number title photos { id words } } }
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
  cautions: string[];
  book: { kind: keyof typeof bookWords; title: string };
  corrections: { id: string }[];
  discrepancies: {
    class: 'unairworthy' | 'discrepancy' | 'observation';
    words: string;
    finding: { number: number; title: string; photos: { id: string; words: string }[] };
  }[];
  order: {
    number: number;
    title: string;
    aircraft: { registration: string; serial: string; model: { maker: string; name: string } };
  };
}

export const certificateWords = {
  mechanic_airframe: 'Mechanic, airframe rating',
  mechanic_powerplant: 'Mechanic, powerplant rating',
  inspection_authorization: 'Inspection authorization',
  repairman: 'Repairman',
  repair_station_inspector: 'Inspector of the repair station',
  private_pilot: 'Private pilot',
};

const bookWords = {
  airframe: 'Airframe record',
  engine: 'Engine record',
  propeller: 'Propeller record',
  rotor: 'Rotor record',
};

/** The book as its cover says, where that says more than its kind. */
export function nameOfBook({ kind, title }: Entry['book']): string {
  const words = bookWords[kind];
  return title.toLowerCase() === kind ? words : `${words}, ${title}`;
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
