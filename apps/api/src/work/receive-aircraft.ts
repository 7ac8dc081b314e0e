import type { Tx } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { keepOrderPromise } from '../hangar/index.ts';
import { holdFor } from '../hold.ts';
import { orderFacts, orderState } from '../states.ts';
import { atMost, text } from './limits.ts';
import { type Reading, timeFromReadings } from './time-from-readings.ts';

export interface ReceiveAircraftInput {
  orderId: string;
  readings: readonly Reading[];
  /** In the words of who reported it. */
  squawks: readonly { words: string; reportedBy: string }[];
  /** Keys, books, equipment, fuel. */
  received: readonly string[];
  standId: string | null;
}

/** The aircraft is here: its meters are read, what was reported and what came with it is written down. All of it or nothing. */
export async function receiveAircraft(
  context: Context,
  input: ReceiveAircraftInput,
): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'mechanic', 'inspector', 'manager');
  atMost(input.readings, 'readings', 3);
  const squawks = atMost(input.squawks, 'squawks', 50).map(({ words, reportedBy }) => {
    text(words, 'squawks.words', { least: 1, most: 4000 });
    return { words, reportedBy: text(reportedBy, 'squawks.reportedBy', { least: 1, most: 120 }) };
  });
  const received = atMost(input.received, 'received', 100).map((what) =>
    text(what, 'received', { least: 1, most: 200 }),
  );

  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'order', input.orderId);
    const order = await tx.workOrder.findUnique({
      where: { id: input.orderId },
      select: {
        id: true,
        number: true,
        aircraftId: true,
        aircraft: { select: { registration: true } },
        ...orderFacts,
      },
    });
    if (!order) throw notFound('order');
    const state = orderState(order);
    if (state !== 'planned')
      throw new Refused(
        'CONFLICT',
        `${order.aircraft.registration} cannot be received for order ${order.number} ${state === 'cancelled' ? 'because that was cancelled' : 'again: it was received already'}.`,
      );
    await holdFor(tx, 'aircraft', order.aircraftId);
    const ofAircraft = {
      where: { aircraftId: order.aircraftId },
      orderBy: [{ readAt: 'desc' as const }, { id: 'desc' as const }],
    };
    const last = await tx.meterReading.findMany({ ...ofAircraft, distinct: ['meter'] });
    // decide
    const readings = timeFromReadings(input.readings, last, last[0] ?? null);
    const at = context.now();
    if (input.standId) await refuseStand(tx, input.standId, order.aircraftId);
    // save
    const orderId = order.id;
    await tx.orderEvent.create({ data: { orderId, kind: 'arrived', at, byId: personId } });
    await tx.meterReading.createMany({
      data: readings.map((reading) => ({
        ...reading,
        orderId,
        aircraftId: order.aircraftId,
        readAt: at,
        readById: personId,
      })),
    });
    await tx.squawk.createMany({
      data: squawks.map((squawk, index) => ({ ...squawk, orderId, at: after(at, index) })),
    });
    await tx.receivedThing.createMany({
      data: received.map((what, index) => ({ what, orderId, receivedAt: after(at, index) })),
    });
    if (input.standId)
      await tx.stay.create({
        data: {
          standId: input.standId,
          aircraftId: order.aircraftId,
          orderId,
          kind: 'actual',
          startsAt: at,
        },
      });
    await keepOrderPromise(tx, orderId, at);
    return orderId;
  });
}

/** A millisecond apart, so that they stay in the order in which they were given. */
const after = (at: Date, index: number) => new Date(at.getTime() + index);

async function refuseStand(tx: Tx, standId: string, aircraftId: string): Promise<void> {
  const stand = await tx.stand.findUnique({ where: { id: standId }, select: { name: true } });
  if (!stand) throw notFound('stand');
  const here = { kind: 'actual', endsAt: null } as const;
  const select = {
    aircraft: { select: { registration: true } },
    stand: { select: { name: true } },
  };
  const there = await tx.stay.findFirst({ where: { standId, ...here }, select });
  if (there)
    throw new Refused(
      'CONFLICT',
      `Stand ${stand.name} is taken: ${there.aircraft.registration} stands there. Choose another stand, or move that aircraft first.`,
      'standId',
    );
  const elsewhere = await tx.stay.findFirst({ where: { aircraftId, ...here }, select });
  if (elsewhere)
    throw new Refused(
      'CONFLICT',
      `${elsewhere.aircraft.registration} stands on stand ${elsewhere.stand.name} already: leave the stand out here, or move it on the floor.`,
      'standId',
    );
}
