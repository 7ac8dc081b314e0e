import type { NutKind } from '@fairlead/airworthiness';
import type { TorqueSource } from '@fairlead/database';
import { civilDay } from '../civil-day.ts';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenText, sayDay } from '../given.ts';
import { type GivenEvent, givenEvent, sentBefore } from './given-event.ts';
import { type GivenTorque, givenGeneral, givenTorque } from './given-torque.ts';
import { itemOnVisit } from './item-on-visit.ts';
import { goodUntil, isLapsed, toolFacts } from './tools.ts';

export interface RecordTorqueInput extends GivenTorque, GivenEvent {
  itemId: string;
  fastener: string;
  source: TorqueSource;
  thread: string | null;
  nut: NutKind | null;
  toolId: string;
  reason: string;
}

/**
 * Records that a fastener was torqued: to what, by which data, with which wrench. A wrench whose calibration has
 * lapsed is not refused, since the work is done: it is recorded as lapsed, with the reason, for whoever looks at it.
 */
export async function recordTorque(context: Context, input: RecordTorqueInput): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const fastener = givenText(input.fastener, 'fastener', { least: 2, most: 200 });
  const reason = givenText(input.reason, 'reason', { most: 500 });
  const { source, unit } = input;
  const wrench = givenTorque(input);
  const general =
    source === 'general' ? givenGeneral(input, input.thread, input.nut) : { thread: '', nut: null };
  const given = givenEvent(input, context);
  return context.write(async (tx) => {
    // load
    const item = await itemOnVisit(tx, input.itemId, 'given a torque');
    const known = await tx.torqueRecord.findFirst({
      where: { clientEventId: given.clientEventId },
      select: { id: true, byId: true },
    });
    if (sentBefore(known, personId)) return known.id;
    const tool = await tx.tool.findUnique({
      where: { id: input.toolId },
      select: { id: true, ...toolFacts },
    });
    if (!tool) throw notFound('tool');
    const { timeZone } = await tx.shop.findFirstOrThrow({ select: { timeZone: true } });
    // decide
    const until = goodUntil(tool);
    const lapsed = isLapsed(until, civilDay(given.at, timeZone));
    if (tool.kind !== 'torque_wrench')
      throw new Refused(
        'BAD_INPUT',
        `“${tool.name}” ${tool.number} is test gear: needed is a torque wrench of the shop’s list.`,
        'toolId',
      );
    if (until === null || tool.retiredAt)
      throw new Refused(
        'AGAINST_RULE',
        `“${tool.name}” ${tool.number} ${tool.retiredAt ? `was retired on ${sayDay(tool.retiredAt)}` : 'was never calibrated'}: needed is a tool of the shop’s list.`,
        'toolId',
      );
    if (lapsed && reason.length < 3)
      throw new Refused(
        'AGAINST_RULE',
        `The calibration of “${tool.name}” ${tool.number} lapsed after ${sayDay(until)}: take one that is good, or say why this one was used; it is flagged to whoever looks at the item.`,
        'reason',
      );
    // save
    const { id } = await tx.torqueRecord.create({
      data: {
        itemId: item.id,
        fastener,
        source,
        unit,
        ...wrench,
        ...general,
        toolId: tool.id,
        goodUntil: until,
        lapsed,
        reason: lapsed ? reason : '',
        byId: personId,
        ...given,
      },
      select: { id: true },
    });
    return id;
  });
}
