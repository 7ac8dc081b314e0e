import { cautionsOn } from './cautions.ts';
import { type CivilDate, civilDate } from './civil-date.ts';
import { type ComposedEntry, signatureLine } from './compose-entry.ts';
import type { EntrySignature } from './entry-draft.ts';

export interface ListedItem {
  readonly title: string;
  readonly kind: 'unairworthy' | 'discrepancy' | 'inoperative';
  /** What was found, where, and against which limit. */
  readonly detail?: string;
}

/** What the list of 14 CFR 43.11(b) is made from. */
export interface DiscrepancyListInput {
  readonly registration: string;
  readonly dated: CivilDate;
  /** The owner or lessee who receives it. */
  readonly givenTo: string;
  readonly items: readonly ListedItem[];
  readonly signature: EntrySignature;
}

const KIND = {
  unairworthy: 'unairworthy',
  discrepancy: 'discrepancy',
  inoperative: 'inoperative, placarded',
} as const;

/**
 * The signed and dated list of discrepancies and unairworthy items that 14 CFR 43.11(b) has the
 * inspector give the owner or lessee; items left inoperative (91.213(d)(2)) stand on it too. Unairworthy
 * items come first, otherwise in the order given.
 *
 * @throws RangeError for a day that does not exist, no recipient or no items.
 * @example discrepancyList({ registration: 'QQ-117', dated: '2026-03-14', givenTo: 'Mara', items: [{ title: 'Collector', kind: 'unairworthy' }], signature: { name: 'Ada', certificateKind: 'mechanic', certificateNumber: '3001' } }).lines[1] // → '1. Collector (unairworthy)'
 */
export function discrepancyList(input: DiscrepancyListInput): ComposedEntry {
  const dated = civilDate(input.dated, 'date of the list').toString();
  if (input.items.length === 0) {
    throw new RangeError(
      `Cannot make a list of discrepancies for ${input.registration} with nothing on it: give at least one item`,
    );
  }
  if (input.givenTo.trim() === '') {
    throw new RangeError(
      `Cannot make a list of discrepancies for ${input.registration} for nobody: name the owner or lessee`,
    );
  }
  const order = ['unairworthy', 'discrepancy', 'inoperative'] as const;
  const sorted = order.flatMap((kind) => input.items.filter((item) => item.kind === kind));
  const title = `${input.registration} · discrepancies and unairworthy items · ${dated}`;
  const lines = [
    `Given to ${input.givenTo} after an inspection (14 CFR 43.11(b)).`,
    ...sorted.map(({ title: name, kind, detail }, index) => {
      const more = detail === undefined || detail.trim() === '' ? '' : `: ${detail}`;
      return `${index + 1}. ${name} (${KIND[kind]})${more}`;
    }),
    signatureLine(input.signature),
    ...cautionsOn('discrepancy_list').map(({ text }) => text),
  ];
  return { title, lines, text: [title, ...lines].join('\n') };
}
