import { hundredths, parseHours } from '@fairlead/airworthiness';
import type { Channel } from '@fairlead/database';
import { currency, parseAmount } from '@fairlead/money';
import {
  type DemoLine,
  type DemoOrder,
  type DemoQuote,
  readDemo,
} from '../../../../prisma/demo/data.ts';
import type { Context } from '../context.ts';
import { planStay } from '../hangar/plan-stay.ts';
import { draftQuote } from '../quoting/draft-quote.ts';
import { recordDecision } from '../quoting/record-decision.ts';
import { reviseQuote } from '../quoting/revise-quote.ts';
import { sendQuote } from '../quoting/send-quote.ts';
import { soldByTime } from '../quoting/sold.ts';
import { receiveAircraft } from '../work/receive-aircraft.ts';
import type { DemoClock } from './demo-clock.ts';
import type { Keys } from './keys.ts';
import type { Catalogue } from './lay-out-catalogue.ts';
import { type Fleet, meterOf } from './lay-out-fleet.ts';
import type { Act } from './play.ts';

/** What the acts find on the stage, and what they leave there for later ones. */
export interface Props extends Fleet, Catalogue {
  clock: DemoClock;
  people: Keys;
  contacts: Keys;
  stands: Keys;
  /** By file name. */
  photos: Keys;
  quotes: Keys;
  orders: Keys;
  /** By order and item: "qq117-hundred-hour oil-filter-change". */
  items: Keys;
  findings: Keys;
  /** By order. */
  invoices: Keys;
  /** That carry a calibration date. */
  tools: Keys;
}

export const channelOf = (how: string | undefined): Channel =>
  how?.includes('telephone') ? 'telephone' : 'email';
const money = () => currency(readDemo('shop.json').currency);
const packageOf = (lines: readonly DemoLine[]) =>
  lines.find((line) => line.kind === 'package')?.package ?? null;

/** Tasks and parts of an offer, as a use-case wants them. */
export const wanted = (lines: readonly DemoLine[], { tasks, parts }: Props) => ({
  tasks: lines.flatMap((line) => (line.kind === 'task' ? [soldByTime(tasks.of(line.task))] : [])),
  charges: [],
  parts: lines.flatMap((line) =>
    line.kind === 'part' ? [{ partId: parts.of(line.part), quantity: line.quantity }] : [],
  ),
});

/** A visit is offered, perhaps revised, sent and answered. */
export function quoteActs(quote: DemoQuote, props: Props): Act[] {
  const { clock } = props;
  const drafts = quote.revisions.map(
    (revision, index): Act => ({
      at: clock.at(revision.drafted),
      by: revision.by,
      does: async (context) => {
        const lines = wanted(revision.lines, props);
        if (index > 0)
          return reviseQuote(context, {
            quoteId: props.quotes.of(quote.key),
            fromRevision: index,
            ...lines,
            expiresOn: null,
            terms: null,
          });
        const pack = packageOf(revision.lines);
        const id = await draftQuote(context, {
          aircraftId: props.aircraft.of(quote.aircraft),
          contactId: props.contacts.of(quote.to),
          packageId: pack === null ? null : props.packages.of(pack),
          findingId: null,
          ...lines,
          title: null,
          expiresOn: null,
          terms: null,
          clientEventId: null,
        });
        return props.quotes.set(quote.key, id);
      },
    }),
  );
  const sendings = quote.revisions.flatMap(({ sent, by, revision }): Act[] =>
    sent
      ? [
          {
            at: clock.at(sent),
            by,
            does: (context) =>
              sendQuote(context, {
                quoteId: props.quotes.of(quote.key),
                revision,
                channel: 'email',
              }),
          },
        ]
      : [],
  );
  const { authorisation } = quote;
  if (!authorisation) return [...drafts, ...sendings];
  const order = readDemo('orders.json').orders.find((one) => one.quote === quote.key);
  return [
    ...drafts,
    ...sendings,
    {
      at: clock.at(authorisation.at),
      by: authorisation.recordedBy,
      does: async (context) => {
        const quoteId = await recordDecision(context, {
          quoteId: props.quotes.of(quote.key),
          revision: authorisation.revision,
          contactId: props.contacts.of(authorisation.by),
          choice: 'go_ahead',
          channel: channelOf(authorisation.how),
          wordsShown: authorisation.readOut,
          ceiling: parseAmount(authorisation.ceiling, money()),
          decidedAt: null,
          note: null,
        });
        if (order) await planOrder(context, quoteId, order, props);
      },
    },
  ];
}

/** The order that a yes has opened gets its key, its day and its place on the floor. */
async function planOrder(
  context: Context,
  quoteId: string,
  order: DemoOrder,
  props: Props,
): Promise<void> {
  const { orderId } = await context.read.quote.findUniqueOrThrow({
    where: { id: quoteId },
    select: { orderId: true },
  });
  if (!orderId) throw new RangeError(`The yes to ${order.quote} opened no order`);
  props.orders.set(order.key, orderId);
  await nameItems(context, order, props);
  await context.write((tx) =>
    tx.workOrder.update({
      where: { id: orderId },
      data: { title: order.title, plannedFor: props.clock.at(order.planned.arrives) },
    }),
  );
  const { aircraft, planned } = order;
  await planStay(context, {
    standId: props.stands.of(planned.stand),
    aircraftId: props.aircraft.of(aircraft),
    orderId,
    startsAt: props.clock.at(planned.arrives),
    endsAt: props.clock.at(planned.promised),
  });
}

/** Items are made by the program from the lines of a quote; here they get the names that the file uses. */
export async function nameItems(context: Context, order: DemoOrder, props: Props): Promise<void> {
  const made = await context.read.workItem.findMany({
    where: { orderId: props.orders.of(order.key) },
    select: { id: true, taskId: true },
  });
  for (const { key, task } of order.items) {
    const item = made.find(({ taskId }) => taskId === props.tasks.of(task));
    if (item) props.items.set(`${order.key} ${key}`, item.id);
  }
}

/** The aircraft is received: meters, squawks, what came with it, and where it stands. */
export function arrivalActs(order: DemoOrder, props: Props): Act[] {
  const { arrival } = order;
  if (!arrival) return [];
  const contacts = new Map(readDemo('contacts.json').contacts.map(({ key, name }) => [key, name]));
  return [
    {
      at: props.clock.at(arrival.at),
      by: arrival.receivedBy,
      does: (context) =>
        receiveAircraft(context, {
          orderId: props.orders.of(order.key),
          readings: arrival.readings.map(({ meter, reading }) => ({
            meter: meterOf(meter),
            readingHundredths: hundredths(parseHours(reading)),
          })),
          squawks: arrival.squawks.map(({ words, by }) => ({
            words,
            reportedBy: contacts.get(by) ?? by,
          })),
          received: [...arrival.cameWith, `fuel: ${arrival.fuel}`],
          standId: props.stands.of(order.planned.stand),
        }),
    },
  ];
}
