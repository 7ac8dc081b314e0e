import { randomUUID } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import type { Prisma, Role } from '@fairlead/database';
import { expect } from 'vitest';
import { makeTask, type TestShop } from '../../support/shop.ts';

export interface TestOrder {
  orderId: string;
  id: string;
  items: { itemId: string; id: string }[];
}

export interface OrderShape {
  items?: Partial<Prisma.WorkItemUncheckedCreateInput>[];
  arrived?: boolean;
  aircraftId?: string;
}

/** An order with items, written as the application; arrived unless said otherwise. */
export async function makeOrder(
  shop: TestShop,
  { items = [{}], arrived = true, aircraftId = shop.aircraftId }: OrderShape = {},
): Promise<TestOrder> {
  const task = await makeTask(shop);
  return shop.inside(async (tx) => {
    const order = await tx.workOrder.create({ data: { aircraftId, title: 'Test visit' } });
    if (arrived) await tx.orderEvent.create({ data: { orderId: order.id, kind: 'arrived' } });
    const made: TestOrder['items'] = [];
    for (const [index, over] of items.entries()) {
      const item = await tx.workItem.create({
        data: {
          orderId: order.id,
          position: index + 1,
          taskId: task.id,
          title: `Test item ${index + 1}`,
          jasc: '7810',
          cautions: [],
          ...over,
        },
      });
      made.push({ itemId: item.id, id: globalId('WorkItem', item.id) });
    }
    return { orderId: order.id, id: globalId('WorkOrder', order.id), items: made };
  });
}

/** A quote of an order, sent and agreed up to a ceiling, with the lines given. Returns the ids of its lines. */
export async function makeAgreedQuote(
  shop: TestShop,
  orderId: string | null,
  {
    lines,
    ceilings,
  }: { lines: Partial<Prisma.QuoteLineUncheckedCreateInput>[]; ceilings: (bigint | null)[] },
): Promise<string[]> {
  return shop.inside(async (tx) => {
    const quote = await tx.quote.create({
      data: {
        aircraftId: shop.aircraftId,
        contactId: shop.contactId,
        title: 'Test quote',
        orderId,
      },
    });
    const revision = await tx.quoteRevision.create({
      data: {
        quoteId: quote.id,
        revision: 1,
        expiresOn: new Date('2099-01-01'),
        currency: 'USD',
        lowMinor: 0,
        likelyMinor: 0,
        p80Minor: 0,
        highMinor: 0,
        taxMinor: 0,
        hoursP10: 1,
        hoursP50: 1,
        hoursMean: 1,
        hoursP80: 1,
        hoursP90: 1,
      },
    });
    const ids: string[] = [];
    for (const [index, line] of lines.entries()) {
      const amount = line.likelyMinor ?? 0n;
      const made = await tx.quoteLine.create({
        data: {
          revisionId: revision.id,
          position: index + 1,
          pricing: 'time_and_materials',
          title: 'Test line',
          category: 'labour',
          taxCode: 'S',
          taxRate: '0',
          quantity: '1',
          unitPrice: '100',
          lowMinor: amount,
          likelyMinor: amount,
          p80Minor: amount,
          highMinor: amount,
          ...line,
        },
      });
      ids.push(made.id);
    }
    await tx.quoteSending.create({ data: { revisionId: revision.id, channel: 'email' } });
    for (const [index, ceilingMinor] of ceilings.entries())
      await tx.decision.create({
        data: {
          revisionId: revision.id,
          contactId: shop.contactId,
          choice: ceilingMinor === null ? 'not_now' : 'go_ahead',
          channel: 'telephone',
          wordsShown: 'read out',
          ceilingMinor,
          currency: 'USD',
          decidedAt: new Date(Date.UTC(2026, 0, 1 + index)),
        },
      });
    return ids;
  });
}

/** What a mutation answered: the thing, or a refusal. */
export interface Outcome {
  __typename: string;
  code?: string;
  message?: string;
  field?: string | null;
  id?: string;
  [field: string]: unknown;
}

/** Calls a mutation with its one input and reads its one answer. */
export async function mutate(
  shop: TestShop,
  role: Role | null,
  name: string,
  input: Record<string, unknown>,
  fields = '',
): Promise<Outcome> {
  const type = `${name[0]?.toUpperCase()}${name.slice(1)}Input`;
  const inputType = inputTypes[name] ?? type;
  const node = nodeTypes[name];
  const answer = await shop.as<{ result: Outcome }>(
    role,
    `mutation($input: ${inputType}!) { result: ${name}(input: $input) { __typename ... on Refusal { code message field } ... on ${node} { id ${fields} } } }`,
    { input },
  );
  if (!answer.data?.result) throw new Error(`${name} answered ${JSON.stringify(answer)}`);
  return answer.data.result;
}

const inputTypes: Record<string, string> = {
  readCautions: 'ItemInput',
  resumeItem: 'ItemInput',
  reopenItem: 'ItemReasonInput',
  putOffItem: 'ItemReasonInput',
};
const nodeTypes: Record<string, string> = {
  clock: 'ClockEvent',
  correctClock: 'ClockEvent',
  answerForgottenClock: 'ClockEvent',
  noteFinding: 'Finding',
  seeFinding: 'Finding',
  sayOutcome: 'Finding',
  addFindingPhoto: 'Finding',
  assessFinding: 'Finding',
  putOffFinding: 'Finding',
  receiveAircraft: 'WorkOrder',
  readCautions: 'WorkItem',
  waitItem: 'WorkItem',
  resumeItem: 'WorkItem',
  finishItem: 'WorkItem',
  reopenItem: 'WorkItem',
  putOffItem: 'WorkItem',
  initialItem: 'WorkItem',
  noteOpenLine: 'OpenLine',
  markOpenLine: 'OpenLine',
  countTools: 'ToolCount',
  leaveHandOver: 'HandOver',
  takeOver: 'HandOver',
  addTool: 'Tool',
  initialLine: 'WorkItem',
  setChecklist: 'Task',
  appointLook: 'LeakCheck',
  recordLeakCheck: 'LeakCheck',
  calibrateTool: 'Tool',
  retireTool: 'Tool',
  recordTorque: 'TorqueRecord',
  recordCompression: 'CompressionCheck',
};

/** Starts, switches or stops a person's clock. */
export const clockAt = (
  shop: TestShop,
  role: Role,
  kind: 'start' | 'switch' | 'stop',
  itemId: string | null,
  at: string | Date,
  clientEventId: string = randomUUID(),
  fields = 'kind',
) =>
  mutate(
    shop,
    role,
    'clock',
    {
      kind,
      ...(itemId && { itemId }),
      at: typeof at === 'string' ? at : at.toISOString(),
      clientEventId,
    },
    fields,
  );

export function expectRefused(outcome: Outcome, code: string, words: RegExp): void {
  expect(outcome.__typename, outcome.message).toBe('Refusal');
  expect(outcome.message).toMatch(words);
  expect(outcome.code).toBe(code);
}

export function expectDone(outcome: Outcome): Outcome {
  expect(outcome.__typename, outcome.message).not.toBe('Refusal');
  return outcome;
}
