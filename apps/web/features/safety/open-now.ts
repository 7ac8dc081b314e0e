import type { UnsentFact } from './kept-facts.ts';
import type { OpenLine } from './order-documents.ts';

/** A line as it stands with what this device has noted; `unsent`: the shop has not got it yet. */
export type LineNow = OpenLine & { unsent?: true };

const stateAfter = { closed: 'closed', reopened: 'open', struck_out: 'struck_out' } as const;

/** What the shop is told of which line is meant: it has no id of its own for one that it has not got yet. */
export const lineNamed = ({ id, clientEventId }: Pick<OpenLine, 'id' | 'clientEventId'>) =>
  id === clientEventId ? { lineClientEventId: clientEventId } : { lineId: id };

/** The lines of an order after what this device has noted. What the shop has of it by now counts once. */
export function linesNow(
  orderId: string,
  lines: readonly OpenLine[],
  facts: readonly UnsentFact[],
): LineNow[] {
  let now: LineNow[] = [...lines];
  for (const fact of facts) {
    const { id, at } = fact;
    const by = { id: '', name: fact.name };
    if (fact.does === 'noteOpen' && fact.input.orderId === orderId) {
      if (now.some(({ clientEventId }) => clientEventId === id)) continue;
      const { kind, words, place, itemId } = fact.input;
      const item = itemId == null ? null : { id: String(itemId), position: 0 };
      const line = { id, clientEventId: id, kind, words, place: place ?? '', at, by, item };
      now.push({ ...line, state: 'open', events: [], unsent: true });
    }
    if (fact.does !== 'markOpen') continue;
    const { lineId, lineClientEventId, kind, note } = fact.input;
    const event = { id, clientEventId: id, kind, note: note ?? '', at, by };
    now = now.map((line) =>
      (line.id === lineId || line.clientEventId === lineClientEventId) &&
      !line.events.some(({ clientEventId }) => clientEventId === id)
        ? { ...line, state: stateAfter[kind], events: [...line.events, event], unsent: true }
        : line,
    );
  }
  return now;
}
