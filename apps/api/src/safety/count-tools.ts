import type { ToolCountKind } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { givenText } from '../given.ts';
import { type GivenEvent, givenEvent, sentBefore } from './given-event.ts';
import { countStates, inTurn, toolCountFacts } from './tool-counts.ts';
import { visitForChange } from './visit-for-change.ts';

export interface CountToolsInput extends GivenEvent {
  orderId: string;
  itemId: string | null;
  kind: ToolCountKind;
  lines: readonly { name: string; number: number }[];
  note: string;
}

const MOST_LINES = 60;

/**
 * Records a count of tools and rags: out to an aircraft, or back. A count that does not agree is recorded too: that a
 * rag is missing is the fact that matters most. What stays missing is accounted for in words, by an inspector or the
 * manager; until then nothing is signed.
 */
export async function countTools(context: Context, input: CountToolsInput): Promise<string> {
  const { kind, orderId, itemId } = input;
  const { personId } = await (kind === 'accounted_for'
    ? allow(context, 'inspector', 'manager')
    : allow(context, 'mechanic', 'inspector', 'manager'));
  const note = givenText(input.note, 'note', {
    least: kind === 'accounted_for' ? 10 : 0,
    most: 500,
  });
  const lines = givenLines(kind, input.lines);
  const given = givenEvent(input, context);
  return context.write(async (tx) => {
    // load
    const order = await visitForChange(tx, orderId, itemId);
    const known = await tx.toolCount.findFirst({
      where: { clientEventId: given.clientEventId },
      select: { id: true, byId: true },
    });
    if (sentBefore(known, personId)) return known.id;
    const counts = await tx.toolCount.findMany({
      where: { orderId, itemId },
      orderBy: inTurn,
      select: toolCountFacts,
    });
    // decide
    const open = countStates(counts).some(({ agrees }) => !agrees);
    if (kind !== 'out' && !open)
      throw new Refused(
        'CONFLICT',
        `Nothing is counted out ${itemId ? 'to this item' : `to order ${order.number}`}: count out first, then back.`,
        'kind',
      );
    // save
    const { id } = await tx.toolCount.create({
      data: { orderId, itemId, kind, note, byId: personId, ...given },
      select: { id: true },
    });
    await tx.toolCountLine.createMany({ data: lines.map((line) => ({ ...line, countId: id })) });
    return id;
  });
}

function givenLines(
  kind: ToolCountKind,
  given: CountToolsInput['lines'],
): { name: string; number: number }[] {
  if (kind === 'accounted_for') {
    if (given.length === 0) return [];
    throw new Refused(
      'BAD_INPUT',
      `lines has ${given.length} entries: accounting for what is missing is words alone, in note.`,
      'lines',
    );
  }
  if (given.length === 0 || given.length > MOST_LINES)
    throw new Refused(
      'BAD_INPUT',
      `lines has ${given.length} entries: needed are 1 to ${MOST_LINES}, a name and a number each.`,
      'lines',
    );
  const least = kind === 'out' ? 1 : 0;
  const lines = given.map(({ name, number }) => {
    if (number < least || number > 999)
      throw new Refused(
        'BAD_INPUT',
        `The number of “${name.slice(0, 80)}” is ${number}: needed is ${least} to 999.`,
        'lines',
      );
    return { name: givenText(name.replace(/\s+/g, ' '), 'lines', { least: 1, most: 80 }), number };
  });
  const twice = lines.find(
    ({ name }, index) =>
      lines.findIndex((other) => other.name.toLowerCase() === name.toLowerCase()) < index,
  );
  if (twice)
    throw new Refused(
      'BAD_INPUT',
      `“${twice.name}” stands twice on the list: needed is each name once, with its number.`,
      'lines',
    );
  return lines;
}
