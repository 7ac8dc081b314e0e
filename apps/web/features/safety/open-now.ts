import type { UnsentFact } from './kept-facts.ts';
import type { OpenLine } from './order-documents.ts';

/** A line as it stands with what this device has noted; `unsent`: the shop has not got it yet. */
export type LineNow = OpenLine & { unsent?: true };

const stateAfter = { closed: 'closed', reopened: 'open', struck_out: 'struck_out' } as const;

/** The lines of an order after what this device has noted. */
export function linesNow(
  orderId: string,
  lines: readonly OpenLine[],
  facts: readonly UnsentFact[],
): LineNow[] {
  let now: LineNow[] = [...lines];
  for (const fact of facts) {
    const by = { id: '', name: fact.name };
    if (fact.does === 'noteOpen' && fact.input.orderId === orderId) {
      const { kind, words, place, itemId } = fact.input;
      const item = itemId == null ? null : { id: String(itemId), position: 0 };
      const line = { id: fact.id, kind, words, place: place ?? '', at: fact.at, by, item };
      now.push({ ...line, state: 'open', events: [], unsent: true });
    }
    if (fact.does !== 'markOpen') continue;
    const { lineId, kind, note } = fact.input;
    const event = { id: fact.id, kind, note: note ?? '', at: fact.at, by };
    now = now.map((line) =>
      line.id === lineId
        ? { ...line, state: stateAfter[kind], events: [...line.events, event], unsent: true }
        : line,
    );
  }
  return now;
}
