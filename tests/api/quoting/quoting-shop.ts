import { randomUUID } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import type { FindingClass, Prisma } from '@fairlead/database';
import { makeTask, type TestShop } from '../../support/shop.ts';

export const gid = globalId;

export interface Refusal {
  __typename: 'Refusal';
  code: string;
  message: string;
  field: string | null;
}
export interface Hours {
  p10: number;
  p50: number;
  mean: number;
  p80: number;
  p90: number;
}
export interface Line {
  position: number;
  pricing: string;
  title: string;
  category: string;
  task: { id: string } | null;
  part: { id: string } | null;
  quantity: string;
  unitPrice: string;
  low: string;
  likely: string;
  p80: string;
  high: string;
  limit: string | null;
  hours: Hours | null;
  jobs: number | null;
  because: { kind: string; sentence: string; hours: number | null; factor: number | null }[];
  modelVersion: string | null;
}
export interface Revision {
  revision: number;
  expiresOn: string;
  terms: string;
  currency: string;
  low: string;
  likely: string;
  p80: string;
  high: string;
  tax: string;
  hours: Hours;
  sentAt: string | null;
  sentBy: string | null;
  lines: Line[];
  decisions: {
    choice: string;
    ceiling: string | null;
    contact: { name: string };
    recordedBy: { name: string } | null;
    channel: string;
    wordsShown: string;
  }[];
}
export interface Quote {
  __typename: 'Quote';
  id: string;
  number: number;
  title: string;
  state: string;
  newest: Revision;
  revisions: { revision: number }[];
}

export const REVISION = `revision expiresOn terms currency low likely p80 high tax hours { p10 p50 mean p80 p90 } sentAt sentBy
  lines { position pricing title category task { id } part { id } quantity unitPrice low likely p80 high limit hours { p10 p50 mean p80 p90 }
    jobs because { kind sentence hours factor } modelVersion }
  decisions { choice ceiling contact { name } recordedBy { name } channel wordsShown }`;
export const QUOTE = `__typename ... on Refusal { code message field } ... on Quote { id number title state newest { ${REVISION} } revisions { revision } }`;

type Role = Parameters<TestShop['as']>[0];
type Input = Record<string, unknown>;

const mutation =
  (name: string, type: string) =>
  async (shop: TestShop, input: Input, role: Role = 'front_desk'): Promise<Quote | Refusal> => {
    const answer = await shop.as<Record<string, Quote | Refusal>>(
      role,
      `mutation ($input: ${type}!) { ${name}(input: $input) { ${QUOTE} } }`,
      { input },
    );
    const given = answer.data?.[name];
    if (!given) throw new Error(`${name}: ${JSON.stringify(answer.errors ?? answer)}`);
    return given;
  };

export const draft = mutation('draftQuote', 'DraftQuoteInput');
export const revise = mutation('reviseQuote', 'ReviseQuoteInput');
export const send = mutation('sendQuote', 'SendQuoteInput');
export const decide = mutation('recordDecision', 'RecordDecisionInput');

/** The quote, or a failure with the sentence of the refusal. */
export function quoted(answer: Quote | Refusal): Quote {
  if (answer.__typename === 'Refusal') throw new Error(`${answer.code}: ${answer.message}`);
  return answer;
}
/** The refusal, or a failure. */
export function refused(answer: Quote | Refusal): Refusal {
  if (answer.__typename !== 'Refusal') throw new Error(`not refused: quote ${answer.number}`);
  return answer;
}

/** Aircraft and contact of the shop, as every draft needs them. */
export const forOwner = (shop: TestShop) => ({
  aircraftId: gid('Aircraft', shop.aircraftId),
  contactId: gid('Contact', shop.contactId),
});

export const tasksOf = (tasks: readonly { id: string }[]) =>
  tasks.map(({ id }) => ({ taskId: gid('Task', id) }));

export async function makeTasks(
  shop: TestShop,
  count: number,
  over: Partial<Prisma.TaskUncheckedCreateInput> = {},
) {
  const made = [];
  for (let index = 1; index <= count; index += 1)
    made.push(await makeTask(shop, { title: `Task ${index}`, ...over }));
  return made;
}

export function makePackage(
  shop: TestShop,
  tasks: readonly { id: string }[],
  over: Partial<Prisma.PackageUncheckedCreateInput> = {},
) {
  return shop.inside(async (tx) => {
    const pack = await tx.package.create({
      data: {
        shopId: shop.shopId,
        key: `package-${randomUUID().slice(0, 8)}`,
        title: 'Test inspection',
        inspection: 'hundred_hour',
        ...over,
      },
    });
    await tx.packageTask.createMany({
      data: tasks.map(({ id }, index) => ({ packageId: pack.id, taskId: id, position: index + 1 })),
    });
    return pack;
  });
}

export function makePart(shop: TestShop, over: Partial<Prisma.PartUncheckedCreateInput> = {}) {
  return shop.inside((tx) =>
    tx.part.create({
      data: {
        shopId: shop.shopId,
        number: `P-${randomUUID().slice(0, 8)}`,
        title: 'Test gasket',
        unitPrice: '12.345',
        ...over,
      },
    }),
  );
}

/** An order under way with a finding on it, assessed unless said otherwise. */
export function makeFinding(
  shop: TestShop,
  { assessed = 'unairworthy' }: { assessed?: FindingClass | null } = {},
) {
  return shop.inside(async (tx) => {
    const order = await tx.workOrder.create({
      data: { aircraftId: shop.aircraftId, title: 'Test visit' },
    });
    await tx.orderEvent.create({ data: { orderId: order.id, kind: 'arrived' } });
    await tx.workItem.create({
      data: {
        orderId: order.id,
        position: 1,
        title: 'Inspect the exhaust',
        jasc: '7810',
        cautions: [],
      },
    });
    const finding = await tx.finding.create({
      data: {
        orderId: order.id,
        number: 1,
        title: 'Grey streak at the collector',
        provisionalClass: 'discrepancy',
        foundAt: new Date(),
        foundById: shop.people.mechanic.id,
        clientEventId: randomUUID(),
      },
    });
    if (assessed)
      await tx.findingEvent.create({
        data: {
          findingId: finding.id,
          kind: 'assessed',
          class: assessed,
          meaning: 'It is cracked.',
          byId: shop.people.inspector.id,
        },
      });
    return { order, finding };
  });
}

/** A quote of one task, sent: by e-mail, which also makes a private link, unless said otherwise. */
export async function sentQuote(
  shop: TestShop,
  over: Input = {},
  channel: 'email' | 'telephone' = 'email',
): Promise<Quote> {
  const input =
    over.tasks || over.packageId ? over : { tasks: tasksOf(await makeTasks(shop, 1)), ...over };
  const { id, newest } = quoted(await draft(shop, { ...forOwner(shop), ...input }));
  return quoted(await send(shop, { quoteId: id, revision: newest.revision, channel }));
}

/** The owner's yes, read out on the telephone. */
export const yesTo = (shop: TestShop, { id, newest }: Quote, over: Input = {}) => ({
  quoteId: id,
  revision: newest.revision,
  contactId: gid('Contact', shop.contactId),
  choice: 'go_ahead',
  channel: 'telephone',
  wordsShown: 'What it is and what it may cost.',
  ...over,
});
