import { inoperativeQuestions, mayLeaveInoperative } from '@fairlead/airworthiness';
import type { InoperativeMethod, Tx } from '@fairlead/database';
import { allow, type Context } from '../../context.ts';
import { notFound, Refused } from '../../errors.ts';
import { givenText, sayDay } from '../../given.ts';
import { holdFor } from '../../hold.ts';
import { linkRecords } from '../../record-chain.ts';
import { shopKey } from '../../shop-key.ts';
import { findingClass, findingFacts, findingState, itemState } from '../../states.ts';
import { shopToday } from '../../today.ts';
import { bookKindOf } from '../book-of.ts';

export interface LeaveInoperativeInput {
  findingId: string;
  equipment: string;
  method: InoperativeMethod;
  placardAt: string;
  notTypeBasis: string;
  notListed: string;
  notRuled: string;
  notDirected: string;
  noHazard: string;
  /** The work by which it was removed or deactivated. */
  itemId: string | null;
  /** The aircraft flies by a minimum equipment list of its own. */
  ownList: boolean;
}

/**
 * Keeps that a qualified person found that equipment may stay inoperative: not required, no hazard, removed or deactivated,
 * and placarded (14 CFR 91.213(d)). The program finds nothing of it: it asks each question and keeps the answers.
 */
export async function leaveInoperative(
  context: Context,
  input: LeaveInoperativeInput,
): Promise<string> {
  const { personId, shopId } = await allow(context, 'inspector');
  const { method, ownList, itemId } = input;
  const equipment = givenText(input.equipment, 'equipment', { least: 2, most: 120 });
  const placardAt = givenText(input.placardAt, 'placardAt', { least: 3, most: 200 });
  const answers = Object.fromEntries(
    inoperativeQuestions.map(({ key, paragraph, asks }) => [
      key,
      answered(input[key], key, paragraph, asks),
    ]),
  ) as Record<(typeof inoperativeQuestions)[number]['key'], string>;
  if (ownList)
    throw new Refused(
      'AGAINST_RULE',
      'An aircraft with an approved minimum equipment list of its own flies by that list (14 CFR 91.213(a)), not by 91.213(d): follow the list, and enter what it asks for.',
      'ownList',
    );
  const today = await shopToday(context);
  const key = await shopKey(context.uploadsDir, shopId);
  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'finding', input.findingId);
    const finding = await tx.finding.findUnique({
      where: { id: input.findingId },
      select: {
        ...{ id: true, number: true, title: true, orderId: true },
        order: { select: { aircraftId: true } },
        item: { select: { jasc: true } },
        ...findingFacts,
      },
    });
    if (!finding) throw notFound('finding');
    // decide
    refuseFinding(finding, today);
    const as = await capacityOf(tx, personId, finding.item?.jasc ?? '5300', today);
    if (method === 'removed' && itemId === null)
      throw new Refused(
        'AGAINST_RULE',
        'To remove equipment is maintenance, and is entered as such (14 CFR 91.213(d)(3)(i), 43.9): name the item of work by which it was removed.',
        'itemId',
      );
    if (itemId !== null) await refuseWork(tx, itemId, finding.orderId);
    // save
    await tx.inoperativeEquipment.create({
      data: {
        ...{ findingId: finding.id, kind: 'left', equipment, method, placardAt, ...answers },
        ...{ itemId, capacity: as, byId: personId, at: context.now() },
      },
      select: { id: true },
    });
    await linkRecords(tx, key, finding.order.aircraftId, context.now());
    return finding.id;
  });
}

/** Takes it back: the finding stands as it did. */
export async function withdrawInoperative(
  context: Context,
  given: { findingId: string; words: string },
): Promise<string> {
  const { personId, shopId } = await allow(context, 'inspector');
  const words = givenText(given.words, 'words', { least: 3, most: 500 });
  const key = await shopKey(context.uploadsDir, shopId);
  return context.write(async (tx) => {
    await holdFor(tx, 'finding', given.findingId);
    const finding = await tx.finding.findUnique({
      where: { id: given.findingId },
      select: {
        ...{ id: true, number: true },
        order: { select: { aircraftId: true } },
        inoperative: { orderBy: [{ at: 'desc' }, { id: 'desc' }], take: 1, select: { kind: true } },
      },
    });
    if (!finding) throw notFound('finding');
    if (finding.inoperative[0]?.kind !== 'left')
      throw new Refused(
        'CONFLICT',
        `Nothing is left inoperative for finding ${finding.number}: there is nothing to take back.`,
      );
    await tx.inoperativeEquipment.create({
      data: { findingId: finding.id, kind: 'withdrawn', words, byId: personId, at: context.now() },
      select: { id: true },
    });
    await linkRecords(tx, key, finding.order.aircraftId, context.now());
    return finding.id;
  });
}

function answered(given: string, field: string, paragraph: string, asks: string): string {
  const text = givenText(given, field, { most: 300 });
  if (text.length < 3)
    throw new Refused(
      'BAD_INPUT',
      `It was not said by what it is ${asks} (14 CFR ${paragraph}): needed is the page, note or number that you looked at, at least 3 characters.`,
      field,
    );
  return text;
}

type Found = Parameters<typeof findingState>[0] & { number: number; title: string };

function refuseFinding(finding: Found, today: Date): void {
  const { number, title } = finding;
  const state = findingState(finding, today);
  if (state === 'corrected')
    throw new Refused(
      'CONFLICT',
      `Finding ${number}, “${title}”, is corrected: nothing of it is inoperative.`,
    );
  if (state !== 'put_off' && state !== 'declined')
    throw new Refused(
      'AGAINST_RULE',
      `Finding ${number}, “${title}”, is ${state}: what is left inoperative is put off first, with until when, or was declined by the owner.`,
    );
  if (findingClass(finding) === 'unairworthy')
    throw new Refused(
      'AGAINST_RULE',
      `Finding ${number}, “${title}”, is assessed as unairworthy: that is corrected, or stands on the list of 14 CFR 43.11(b) as such. Where it is equipment that 91.213(d)(2) does not require, a qualified person assesses it anew first.`,
    );
}

/** In which capacity they find it; a shop's own people sign in as inspectors, and each holds what they hold. */
async function capacityOf(tx: Tx, personId: string, jasc: string, today: Date): Promise<string> {
  const held = await tx.certificate.findMany({
    where: { personId },
    orderBy: { kind: 'asc' },
    select: { kind: true, number: true, validFrom: true, validUntil: true },
  });
  const good = held.filter(
    ({ validFrom, validUntil }) => validFrom <= today && (!validUntil || validUntil >= today),
  );
  const answer = mayLeaveInoperative(
    held.flatMap(({ kind, number, validFrom, validUntil }) =>
      kind === 'repair_station_inspector'
        ? []
        : [
            {
              ...{ kind, number, validFrom: sayDay(validFrom) },
              ...(validUntil && { validUntil: sayDay(validUntil) }),
            },
          ],
    ),
    {
      powerplant: ['engine', 'propeller'].includes(bookKindOf(jasc)),
      stationInspector: good.some(({ kind }) => kind === 'repair_station_inspector'),
    },
    sayDay(today),
  );
  if (answer.allowed) return answer.as;
  throw new Refused('AGAINST_RULE', `You cannot find that: ${answer.because}.`);
}

async function refuseWork(tx: Tx, itemId: string, orderId: string): Promise<void> {
  const item = await tx.workItem.findUnique({
    where: { id: itemId },
    select: {
      ...{ orderId: true, position: true, title: true, critical: true },
      events: { orderBy: [{ at: 'asc' }, { id: 'asc' }], select: { kind: true } },
      stretches: { select: { id: true }, take: 1 },
    },
  });
  if (!item) throw notFound('item');
  if (item.orderId !== orderId)
    throw new Refused('BAD_INPUT', 'That item is of another order than the finding.', 'itemId');
  if (!['done', 'inspected'].includes(itemState(item)))
    throw new Refused(
      'AGAINST_RULE',
      `Item ${item.position}, “${item.title}”, is not done yet: what it removes or deactivates is not placarded by it (14 CFR 91.213(d)(3)).`,
      'itemId',
    );
}
