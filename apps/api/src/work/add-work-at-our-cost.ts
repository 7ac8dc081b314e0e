import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { holdFor } from '../hold.ts';
import { orderFacts, orderState } from '../states.ts';
import { refuseFirstJob } from './first-job.ts';
import { text } from './limits.ts';

export interface AddWorkAtOurCostInput {
  orderId: string;
  kind: 'shop' | 'training' | 'rework';
  title: string;
  /** Left out: of the task, or of the work that it puts right. */
  jasc: string | null;
  /** Its hours are learned from as those of this task. */
  taskId: string | null;
  putsRightId: string | null;
  reason: string;
}

/** Opens work that nobody was offered and nobody is billed for: the shop's own, training, or rework. It is clocked, initialled and signed for like any other. */
export async function addWorkAtOurCost(
  context: Context,
  input: AddWorkAtOurCostInput,
): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'inspector', 'manager');
  const { orderId, kind, taskId, putsRightId } = input;
  const title = text(input.title, 'title', { least: 3, most: 200 });
  const reason = text(input.reason, 'reason', { least: 3, most: 500 });
  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'order', orderId);
    const order = await tx.workOrder.findUnique({
      where: { id: orderId },
      select: { number: true, aircraftId: true, ...orderFacts },
    });
    if (!order) throw notFound('order');
    const like = {
      jasc: true,
      critical: true,
      cautions: true,
      reference: true,
      checklist: true,
    } as const;
    const task = taskId ? await tx.task.findUnique({ where: { id: taskId }, select: like }) : null;
    if (taskId && !task) throw notFound('task');
    // decide
    const state = orderState(order);
    if (!['planned', 'here', 'ready_to_sign'].includes(state))
      throw new Refused(
        'AGAINST_RULE',
        `Order ${order.number} is ${state}: nothing can be added to it. Open a new order for it.`,
      );
    await refuseFirstJob(tx, { kind, putsRightId }, { aircraftId: order.aircraftId, itemIds: [] });
    const first = putsRightId
      ? await tx.workItem.findUnique({ where: { id: putsRightId }, select: like })
      : null;
    const source = task ?? first;
    const jasc = input.jasc ?? source?.jasc ?? '';
    if (!/^\d{4}$/.test(jasc))
      throw new Refused(
        'BAD_INPUT',
        `jasc is "${jasc.slice(0, 20)}": needed are the four digits of the JASC code.`,
        'jasc',
      );
    // save
    const { _max } = await tx.workItem.aggregate({ where: { orderId }, _max: { position: true } });
    const at = context.now();
    const { id } = await tx.workItem.create({
      data: {
        ...{ orderId, taskId, title, openedAt: at, position: (_max.position ?? 0) + 1 },
        // What made the first job critical makes putting it right so; what stands in the task's list is initialled again.
        ...(source ?? { cautions: [] }),
        jasc,
      },
      select: { id: true },
    });
    await tx.atOurCost.create({
      data: { itemId: id, kind, putsRightId, reason, at, byId: personId },
    });
    return id;
  });
}
