import { randomUUID } from 'node:crypto';
import { globalId, keyOf } from '@fairlead/api/ids';
import type { FindingClass, InspectionKind, Role } from '@fairlead/database';
import type { TestShop } from './shop.ts';

export interface VisitItem {
  title?: string;
  jasc?: string;
  reference?: string;
  critical?: boolean;
  /** Left out: done by the mechanic, in these words. Null: still open. */
  workDone?: string | null;
  initialled?: boolean;
  second?: boolean;
  quoteLineId?: string;
  taskId?: string | null;
  /** Clocked by the mechanic, seconds. */
  seconds?: number;
}

export interface VisitFinding {
  title: string;
  class: FindingClass;
  words?: string;
  assessed?: boolean;
}

export interface VisitShape {
  inspection?: InspectionKind | null;
  items?: VisitItem[];
  findings?: VisitFinding[];
  /** Time in service read at arrival, hundredths of an hour; null: nobody read a meter. */
  tisHundredths?: number | null;
  arrived?: boolean;
  received?: string[];
  aircraftId?: string;
  /** Left out: an inspection was looked over for leaks twice, and was dry. */
  leakChecks?: boolean;
}

export interface Visit {
  orderId: string;
  order: string;
  itemIds: string[];
  items: string[];
  findingIds: string[];
  things: string[];
}

/** The day on which everything of a visit happened. */
export const VISIT_DAY = new Date('2026-03-14T09:00:00Z');
const after = (minutes: number) => new Date(VISIT_DAY.getTime() + minutes * 60_000);

/** An aircraft that is here with its work, written as the application: arrived, worked on and initialled unless said otherwise. */
export function makeVisit(shop: TestShop, shape: VisitShape = {}): Promise<Visit> {
  const {
    inspection = 'hundred_hour',
    items = [{}],
    findings = [],
    tisHundredths = 246_300,
    arrived = true,
    received = [],
    aircraftId = shop.aircraftId,
    leakChecks = inspection !== null && arrived,
  } = shape;
  const by = (role: Role) => shop.people[role].id;
  return shop.inside(async (tx) => {
    const { id: orderId } = await tx.workOrder.create({
      data: { aircraftId, title: 'Test visit', inspection },
      select: { id: true },
    });
    if (arrived) await tx.orderEvent.create({ data: { orderId, kind: 'arrived', at: VISIT_DAY } });
    if (tisHundredths !== null)
      await tx.meterReading.create({
        data: {
          aircraftId,
          orderId,
          meter: 'tachometer',
          readingHundredths: tisHundredths,
          tisHundredths,
          readAt: VISIT_DAY,
        },
      });
    if (leakChecks)
      await tx.leakCheck.createMany({
        data: (['after_standing', 'after_run_up'] as const).map((kind) => ({
          orderId,
          kind,
          seen: 'dry',
          at: VISIT_DAY,
          byId: by('mechanic'),
          clientEventId: randomUUID(),
        })),
      });
    const things: string[] = [];
    for (const what of received)
      things.push((await tx.receivedThing.create({ data: { orderId, what } })).id);
    const itemIds: string[] = [];
    for (const [index, given] of items.entries()) {
      const {
        workDone = 'Inspected, no defect found.',
        initialled = true,
        second = false,
        seconds = 0,
        ...over
      } = given;
      const { id: itemId } = await tx.workItem.create({
        data: {
          orderId,
          position: index + 1,
          title: `Item ${index + 1}`,
          jasc: '5300',
          reference: 'Test manual, chapter 5',
          cautions: [],
          ...over,
        },
        select: { id: true },
      });
      itemIds.push(itemId);
      const startedAt = after(60 * index);
      if (seconds > 0)
        await tx.stretch.create({
          data: {
            personId: by('mechanic'),
            itemId,
            startedAt,
            endedAt: new Date(startedAt.getTime() + seconds * 1000),
          },
        });
      if (workDone === null) continue;
      await tx.itemEvent.create({
        data: { itemId, kind: 'done', workDone, at: after(200), byId: by('mechanic') },
      });
      if (initialled)
        await tx.itemEvent.create({
          data: { itemId, kind: 'initialled', at: after(210), byId: by('inspector') },
        });
      if (second)
        await tx.itemEvent.create({
          data: { itemId, kind: 'second_inspected', at: after(220), byId: by('manager') },
        });
    }
    const findingIds: string[] = [];
    for (const [
      index,
      { assessed = true, class: provisionalClass, title, words = '' },
    ] of findings.entries()) {
      const { id: findingId } = await tx.finding.create({
        data: {
          orderId,
          number: index + 1,
          title,
          words,
          provisionalClass,
          foundAt: VISIT_DAY,
          foundById: by('mechanic'),
          clientEventId: randomUUID(),
        },
        select: { id: true },
      });
      findingIds.push(findingId);
      if (assessed)
        await tx.findingEvent.create({
          data: {
            findingId,
            kind: 'assessed',
            class: provisionalClass,
            meaning: 'Test.',
            byId: by('inspector'),
          },
        });
    }
    return {
      orderId,
      order: globalId('WorkOrder', orderId),
      itemIds,
      items: itemIds.map((id) => globalId('WorkItem', id)),
      findingIds,
      things: things.map((id) => globalId('ReceivedThing', id)),
    };
  });
}

export interface DraftAnswer {
  text: string | null;
  rule: string;
  mayApprove: boolean;
  because: string;
  signer: string;
  completedOn: string | null;
  described: string[];
  missing: { paragraph: string; what: string; remedy: string }[];
  listed: { class: string; words: string }[];
}

export interface EntryAsked {
  orderId: string;
  bookId: string;
  outcome?: string | null;
  extent?: string;
  leaveOut?: string[];
  correctsId?: string;
  reason?: string;
}

/** The entry as a person would sign it now. */
export async function entryDraft(
  shop: TestShop,
  asked: EntryAsked,
  role: Role = 'inspector',
): Promise<DraftAnswer> {
  const answer = await shop.as<{ entryDraft: DraftAnswer }>(
    role,
    `query($orderId: ID!, $bookId: ID!, $outcome: ReleaseOutcome, $extent: String, $leaveOut: [ID!], $correctsId: ID, $reason: String) {
      entryDraft(orderId: $orderId, bookId: $bookId, outcome: $outcome, extent: $extent, leaveOut: $leaveOut, correctsId: $correctsId, reason: $reason) {
        ... on EntryDraft { text rule mayApprove because signer completedOn described missing { paragraph what remedy } listed { class words } }
        ... on Refusal { because: message } } }`,
    { ...asked },
  );
  if (!answer.data) throw new Error(`entryDraft answered ${JSON.stringify(answer)}`);
  return answer.data.entryDraft;
}

export interface SignAnswer {
  id?: string;
  code?: string;
  message?: string;
  text?: string;
}

/** Signs an entry with the text given, or else with the text of the draft. */
export async function signEntry(
  shop: TestShop,
  asked: EntryAsked,
  {
    signature = 'Test inspector',
    text,
    role = 'inspector',
    again,
  }: { signature?: string; text?: string; role?: Role; again?: string } = {},
): Promise<SignAnswer> {
  const read = text ?? (await entryDraft(shop, asked, role)).text ?? 'nothing that could be read';
  const what = {
    orderId: keyOf('WorkOrder', asked.orderId, 'orderId'),
    bookId: keyOf('RecordBook', asked.bookId, 'bookId'),
    text: read,
  };
  const answer = await shop.as<{ signEntry: SignAnswer }>(
    role,
    'mutation($input: SignEntryInput!) { signEntry(input: $input) { ... on RecordEntry { id text } ... on Refusal { code message } } }',
    {
      input: {
        ...asked,
        signature,
        text: read,
        again: again ?? (await shop.signAgain(role, what)),
      },
    },
  );
  if (!answer.data) throw new Error(`signEntry answered ${JSON.stringify(answer)}`);
  return answer.data.signEntry;
}
