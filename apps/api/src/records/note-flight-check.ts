import type { FlightCheckKind } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenText, sayDay } from '../given.ts';
import { linkRecords } from '../record-chain.ts';
import { shopKey } from '../shop-key.ts';
import { orderFacts, orderState } from '../states.ts';
import { shopToday } from '../today.ts';
import { holdForSigning } from './order-to-sign.ts';

export interface NoteFlightCheckInput {
  orderId: string;
  kind: FlightCheckKind;
  words: string;
  pilotName: string | null;
  pilotCertificate: string | null;
  flownOn: Date | null;
}

/**
 * Notes that work may have changed how the aircraft flies, that it was flown and logged, or that ground tests show that it
 * need not be (14 CFR 91.407(b) and (c)). The airframe's entry says it while it is asked for. Nothing is held back for it:
 * the rule is about carrying people, and the program flies nothing.
 */
export async function noteFlightCheck(
  context: Context,
  input: NoteFlightCheckInput,
): Promise<string> {
  const { personId, shopId } =
    input.kind === 'flown'
      ? await allow(context, 'front_desk', 'inspector', 'manager')
      : await allow(context, 'inspector', 'manager');
  const words = givenText(input.words, 'words', { least: 3, most: 500 });
  const flight = input.kind === 'flown' ? await givenFlight(context, input) : refuseFlight(input);
  const key = await shopKey(context.uploadsDir, shopId);
  return context.write(async (tx) => {
    await holdForSigning(tx, input.orderId);
    const order = await tx.workOrder.findUnique({
      where: { id: input.orderId },
      select: {
        ...{ number: true, aircraftId: true },
        ...orderFacts,
        flightChecks: {
          orderBy: [{ at: 'desc' }, { id: 'desc' }],
          take: 1,
          select: { kind: true },
        },
      },
    });
    if (!order) throw notFound('order');
    const state = orderState(order);
    if (state === 'planned' || state === 'cancelled')
      throw new Refused(
        'AGAINST_RULE',
        `Order ${order.number} is ${state}: nothing was done on it that could be flown.`,
      );
    const asked = order.flightChecks[0]?.kind === 'asked';
    if (input.kind === 'asked' && asked)
      throw new Refused('CONFLICT', `A flight is asked for on order ${order.number} already.`);
    if (input.kind !== 'asked' && !asked)
      throw new Refused(
        'CONFLICT',
        `No flight is asked for on order ${order.number}: there is nothing to answer.`,
      );
    await tx.flightCheck.create({
      data: { orderId: input.orderId, kind: input.kind, words, byId: personId, ...flight },
      select: { id: true },
    });
    await linkRecords(tx, key, order.aircraftId, context.now());
    return input.orderId;
  });
}

async function givenFlight(context: Context, input: NoteFlightCheckInput) {
  const today = await shopToday(context);
  const { flownOn } = input;
  if (flownOn === null || flownOn > today)
    throw new Refused(
      'BAD_INPUT',
      `It was flown ${flownOn ? `on ${sayDay(flownOn)}` : 'on no day that was given'}: needed is the day of the flight, not after today, ${sayDay(today)}.`,
      'flownOn',
    );
  return {
    flownOn,
    pilotName: givenText(input.pilotName, 'pilotName', { least: 2, most: 120 }),
    pilotCertificate: givenText(input.pilotCertificate, 'pilotCertificate', {
      least: 3,
      most: 120,
    }),
  };
}

function refuseFlight({ kind, pilotName, pilotCertificate, flownOn }: NoteFlightCheckInput) {
  if (pilotName !== null || pilotCertificate !== null || flownOn !== null)
    throw new Refused(
      'BAD_INPUT',
      `Who flew and when was given with "${kind}": it belongs to a flight that was made.`,
      'pilotName',
    );
  return {};
}
