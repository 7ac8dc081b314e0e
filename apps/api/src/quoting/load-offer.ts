import type { AircraftKind } from '@fairlead/database';
import type { MechanicShare } from '@fairlead/labour';
import type { BilledTimeRule } from '@fairlead/money';
import { billedTimeColumns, billedTimeOf } from '../billed-time.ts';
import type { Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import type { ShopModel } from '../hindsight/index.ts';
import { orderFacts, orderState } from '../states.ts';
import { shopToday } from '../today.ts';
import { estimateTasks } from './estimate-tasks.ts';
import { likelyWork } from './likely-findings.ts';
import type { OfferInput } from './offer-input.ts';
import type { Offered } from './offered.ts';
import { offeredPart, partsWanted } from './parts-wanted.ts';
import { type PriceList, priceList } from './price-list.ts';
import { refuseUnlikely } from './refuse-unlikely.ts';
import { BY_TIME } from './sold.ts';

export interface Offer {
  aircraft: { id: string; registration: string };
  /** What the quote is called where nobody calls it anything else. */
  title: string;
  /** The order of the finding; null for a quote for a visit. */
  orderId: string | null;
  offered: Offered;
  /** What the hours come from. */
  model: ShopModel;
  prices: PriceList;
  /** How the time on an item becomes what is billed. */
  billing: BilledTimeRule;
  today: Date;
}

export const kindWords: Record<AircraftKind, string> = {
  helicopter_two_seat: 'two-seat helicopters',
  helicopter_four_seat: 'four-seat helicopters',
  airplane_single: 'single-engine airplanes',
  airplane_twin: 'twin-engine airplanes',
};

/**
 * Reads all that a quote is made from, in a number of statements that does not grow with its lines.
 *
 * @param mechanics who is supposed to do the work; nobody: whoever is free
 */
export async function loadOffer(
  context: Context,
  input: OfferInput,
  mechanics: readonly MechanicShare[] = [],
): Promise<Offer> {
  refuseUnlikely(input);
  const { read } = context;
  const today = await shopToday(context);
  const shop = await read.shop.findFirstOrThrow({
    select: { currency: true, ...billedTimeColumns },
  });
  const aircraft = await read.aircraft.findUnique({
    where: { id: input.aircraftId },
    select: {
      id: true,
      registration: true,
      modelId: true,
      model: { select: { kind: true, maker: true, name: true } },
    },
  });
  const pack = input.packageId
    ? await read.package.findUnique({
        where: { id: input.packageId },
        include: {
          model: { select: { name: true } },
          tasks: {
            orderBy: { position: 'asc' },
            select: { taskId: true, task: { select: { title: true } } },
          },
        },
      })
    : null;
  const finding = input.findingId
    ? await read.finding.findUnique({
        where: { id: input.findingId },
        select: {
          title: true,
          number: true,
          orderId: true,
          order: { select: { aircraftId: true, number: true, ...orderFacts } },
        },
      })
    : null;
  const parts = await partsWanted(read, input.parts);
  if (!aircraft) throw notFound('aircraft');
  if (input.packageId && !pack) throw notFound('package');
  if (input.findingId && !finding) throw notFound('finding');
  if (
    pack &&
    ((pack.modelId && pack.modelId !== aircraft.modelId) ||
      (pack.modelKind && pack.modelKind !== aircraft.model.kind))
  )
    throw new Refused(
      'AGAINST_RULE',
      `"${pack.title}" is for ${pack.model ? `the ${pack.model.name}` : kindWords[pack.modelKind ?? aircraft.model.kind]}; ${aircraft.registration} is a ${aircraft.model.name}: choose a package for it.`,
      'packageId',
    );
  if (finding && finding.order.aircraftId !== aircraft.id)
    throw new Refused(
      'BAD_INPUT',
      `Finding ${finding.number} was made on another aircraft than ${aircraft.registration}.`,
      'findingId',
    );
  if (finding && !['planned', 'here', 'ready_to_sign'].includes(orderState(finding.order)))
    throw new Refused(
      'AGAINST_RULE',
      `Order ${finding.order.number} of finding ${finding.number} is ${orderState(finding.order)}: nothing can be added to it. Make a quote for a new visit.`,
      'findingId',
    );
  const twice = pack?.tasks.find(({ taskId }) =>
    input.tasks.some((wanted) => wanted.taskId === taskId),
  );
  if (twice)
    throw new Refused(
      'BAD_INPUT',
      `"${twice.task.title}" is in "${pack?.title}" already: leave it out of the tasks.`,
      'tasks',
    );

  const packed = pack?.tasks.map(({ taskId }) => taskId) ?? [];
  const taskIds = [...packed, ...input.tasks.map(({ taskId }) => taskId)];
  if (taskIds.length === 0)
    throw new Refused(
      'BAD_INPUT',
      'A quote for no work was refused: needed is a package with tasks, or at least one task.',
      'tasks',
    );
  const { tasks: estimates, model } = await estimateTasks(read, { taskIds, aircraft, mechanics });
  const likely = pack ? await likelyWork(read, pack.id, aircraft, taskIds) : [];
  const prices = await priceList(read, shop.currency, today, {
    contactId: input.contactId ?? null,
    aircraftId: aircraft.id,
  });
  const flat =
    pack && pack.priceMinor !== null ? { title: pack.title, price: pack.priceMinor } : null;
  const underFlat = flat ? packed.length : 0;
  const soldOf = new Map(
    input.tasks.map(({ taskId, pricing, price }) => [taskId, { pricing, price }]),
  );
  return {
    aircraft,
    title: pack?.title ?? finding?.title ?? titleOf(estimates),
    orderId: finding?.orderId ?? null,
    model,
    offered: {
      flat,
      flatTasks: estimates.slice(0, underFlat),
      tasks: estimates.slice(underFlat).map((task) => ({
        ...task,
        sold: soldOf.get(task.id) ?? BY_TIME,
      })),
      likely,
      charges: input.charges,
      parts: parts.map((part) => offeredPart(part, prices)),
    },
    prices,
    billing: billedTimeOf(shop),
    today,
  };
}

/** "Replace the hose", or "Replace the hose and 2 more". */
const titleOf = ([first, ...more]: readonly { title: string }[]) =>
  `${first?.title ?? ''}${more.length === 0 ? '' : ` and ${more.length} more`}`;
