import type { OpenLineEventKind, Tx } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenText } from '../given.ts';
import { clientId } from '../work/index.ts';
import { type GivenEvent, givenEvent, sentBefore } from './given-event.ts';
import { openLineFacts, openLineState, sayOpenLine } from './open-lines.ts';
import { visitForChange } from './visit-for-change.ts';

/** Which line: by the shop's id, or by the one that its device made, where the device has not heard of another yet. */
export type NamedLine = { lineId: string } | { lineClientEventId: string };

export interface MarkOpenLineInput extends GivenEvent {
  line: NamedLine;
  kind: OpenLineEventKind;
  note: string;
}

/**
 * Says what became of something that was opened or taken off: closed or refitted, by whoever did it; open again; or
 * struck out with a reason, because it never was so. One line at a time: each was looked at.
 */
export async function markOpenLine(context: Context, input: MarkOpenLineInput): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const { kind } = input;
  const note = givenText(input.note, 'note', { least: kind === 'struck_out' ? 3 : 0, most: 500 });
  const given = givenEvent(input, context);
  return context.write(async (tx) => {
    // load
    const found = await lineNamed(tx, input.line);
    await visitForChange(tx, found.orderId);
    const known = await tx.openLineEvent.findFirst({
      where: { clientEventId: given.clientEventId },
      select: { lineId: true, byId: true },
    });
    // decide
    if (sentBefore(known, personId)) return known.lineId;
    const line = await tx.openLine.findUniqueOrThrow({
      where: { id: found.id },
      select: { id: true, ...openLineFacts },
    });
    const state = openLineState(line);
    // Closed twice, by two people at once: the second says nothing new.
    if (kind === state) return line.id;
    const needed = kind === 'reopened' ? ['closed', 'struck_out'] : ['open'];
    if (!needed.includes(state))
      throw new Refused(
        'CONFLICT',
        `${sayOpenLine(line)} is ${state === 'struck_out' ? 'struck out' : state}: needed is a line that is ${kind === 'reopened' ? 'closed or struck out' : 'open'}.`,
        'kind',
      );
    // save
    await tx.openLineEvent.create({
      data: { lineId: line.id, kind, note, byId: personId, ...given },
      select: { id: true },
    });
    return line.id;
  });
}

async function lineNamed(tx: Tx, line: NamedLine): Promise<{ id: string; orderId: string }> {
  const select = { id: true, orderId: true } as const;
  if ('lineId' in line) {
    const found = await tx.openLine.findUnique({ where: { id: line.lineId }, select });
    if (!found) throw notFound('open line');
    return found;
  }
  const clientEventId = clientId(line.lineClientEventId, 'lineClientEventId');
  const found = await tx.openLine.findFirst({ where: { clientEventId }, select });
  // A device sends in order: what it noted first was refused, or thrown away.
  if (!found)
    throw new Refused(
      'NOT_FOUND',
      'The line that this is about was noted on this device and did not come to the shop: note it again if it was so, then say what became of it.',
      'lineClientEventId',
    );
  return found;
}
