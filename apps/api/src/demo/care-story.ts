import { type DemoCareOrder, readDemo } from '../../../../prisma/demo/data.ts';
import { newId } from '../new-id.ts';
import { appointLook } from '../safety/appoint-look.ts';
import { countTools } from '../safety/count-tools.ts';
import { initialLine } from '../safety/initial-line.ts';
import { addTool } from '../safety/keep-tools.ts';
import { leaveHandOver } from '../safety/leave-hand-over.ts';
import { markOpenLine } from '../safety/mark-open-line.ts';
import { noteOpenLine } from '../safety/note-open-line.ts';
import { recordCompression } from '../safety/record-compression.ts';
import { recordTorque } from '../safety/record-torque.ts';
import type { Act } from './play.ts';
import type { Props } from './story.ts';

/** After the clocks of its minute, and before items are finished in it. */
const meanwhile = 0.5;
const sent = () => ({ at: null, clientEventId: newId() });

/** The manager puts the tools with a calibration date on the shop's list. */
export const toolActs = (props: Props): Act[] =>
  readDemo('care.json').tools.map(({ key, kind, name, number, goodUntil, words, added }) => ({
    at: props.clock.at(added),
    by: 'bastian',
    does: async (context) => {
      const id = await addTool(context, {
        kind,
        name,
        number,
        dueOn: props.clock.day(goodUntil),
        words,
      });
      props.tools.set(key, id);
    },
  }));

/** What is opened, counted, tightened, looked at and left on the orders. */
export const careActs = (props: Props): Act[] =>
  Object.entries(readDemo('care.json').orders).flatMap(([order, care]) =>
    orderActs(order, care, props),
  );

function orderActs(order: string, care: DemoCareOrder, props: Props): Act[] {
  const orderId = () => props.orders.of(order);
  const itemOf = (item: string) => props.items.of(`${order} ${item}`);
  const where = (item: string | null) => ({
    orderId: orderId(),
    itemId: item === null ? null : itemOf(item),
  });
  const act = (
    { at, by }: { at: { day: number; time?: string }; by: string },
    does: Act['does'],
  ): Act => ({ at: props.clock.at(at), by, order: meanwhile, does });
  return [
    ...care.openLines.flatMap((line): Act[] => {
      let lineId = '';
      const { kind, words, place, item, closed } = line;
      const noted = act(line, async (context) => {
        lineId = await noteOpenLine(context, { ...where(item), kind, words, place, ...sent() });
      });
      if (!closed) return [noted];
      const marked = act(closed, (context) =>
        markOpenLine(context, { line: { lineId }, kind: 'closed', note: '', ...sent() }),
      );
      return [noted, marked];
    }),
    ...care.counts.map((count) =>
      act(count, (context) =>
        countTools(context, {
          ...where(count.item),
          kind: count.kind,
          lines: count.lines,
          note: '',
          ...sent(),
        }),
      ),
    ),
    ...care.initials.map((one) =>
      act(one, (context) =>
        initialLine(context, {
          itemId: itemOf(one.item),
          line: one.line,
          kind: 'initialled',
          ...sent(),
        }),
      ),
    ),
    ...care.handOvers.map((left) =>
      act(left, (context) =>
        leaveHandOver(context, {
          ...where(left.item),
          done: left.done,
          notDone: left.notDone,
          loose: left.loose,
          ...sent(),
        }),
      ),
    ),
    ...care.looks.map((look) =>
      act(look, (context) =>
        appointLook(context, {
          orderId: orderId(),
          kind: look.kind,
          plannedFor: props.clock.at(look.plannedFor),
          ...sent(),
        }),
      ),
    ),
    ...care.torques.map((one) =>
      act(one, (context) =>
        recordTorque(context, {
          itemId: itemOf(one.item),
          fastener: one.fastener,
          torque: one.torque,
          unit: one.unit,
          drag: null,
          lever: null,
          extension: null,
          source: 'maker',
          thread: null,
          nut: null,
          toolId: props.tools.of(one.tool),
          reason: one.reason,
          ...sent(),
        }),
      ),
    ),
    ...care.compressions.map((one) =>
      act(one, (context) =>
        recordCompression(context, {
          itemId: itemOf(one.item),
          engine: '',
          supply: one.supply,
          held: one.held,
          note: '',
          ...sent(),
        }),
      ),
    ),
  ];
}
