/**
 * States are derived from what happened, here and nowhere else. Each has the facts it needs (a Prisma
 * selection) and one pure function over them.
 */
import type {
  Choice,
  FindingClass,
  FindingEventKind,
  ItemEventKind,
  MailEventKind,
  OrderEventKind,
  Prisma,
} from '@fairlead/database';

// ── Quote ─────────────────────────────────────────────────────────────────────
export const quoteStates = ['draft', 'sent', 'accepted', 'declined', 'lapsed'] as const;
export type QuoteState = (typeof quoteStates)[number];

/** The newest revision speaks for the quote. */
export const quoteFacts = {
  revisions: {
    orderBy: { revision: 'desc' },
    take: 1,
    select: {
      expiresOn: true,
      sendings: { select: { sentAt: true } },
      decisions: { orderBy: { recordedAt: 'desc' }, select: { choice: true } },
    },
  },
} satisfies Prisma.QuoteSelect;

export interface QuoteFacts {
  revisions: readonly {
    expiresOn: Date;
    sendings: readonly unknown[];
    decisions: readonly { choice: Choice }[];
  }[];
}

/** @param today midnight UTC of the civil day in the shop's time zone; a quote holds through its last day */
export function quoteState({ revisions: [newest] }: QuoteFacts, today: Date): QuoteState {
  if (!newest || newest.sendings.length === 0) return 'draft';
  const answer = newest.decisions.find(({ choice }) => choice !== 'talk_first');
  if (answer) return answer.choice === 'go_ahead' ? 'accepted' : 'declined';
  return newest.expiresOn < today ? 'lapsed' : 'sent';
}

// ── Work item ─────────────────────────────────────────────────────────────────
export const itemStates = ['open', 'in_work', 'waiting', 'done', 'inspected', 'put_off'] as const;
export type ItemState = (typeof itemStates)[number];

export const itemFacts = {
  critical: true,
  events: {
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
    select: { kind: true, waitingFor: true, byId: true },
  },
  stretches: { select: { id: true }, take: 1 },
} satisfies Prisma.WorkItemSelect;

export interface ItemFacts {
  critical: boolean;
  events: readonly { kind: ItemEventKind }[];
  stretches: readonly unknown[];
}

/** Events in the order in which they happened. A critical item is inspected only with the second pair of eyes. */
export function itemState({ critical, events, stretches }: ItemFacts): ItemState {
  let state: ItemState = stretches.length > 0 ? 'in_work' : 'open';
  let initialled = false;
  let second = false;
  for (const { kind } of events) {
    if (kind === 'waiting') state = 'waiting';
    else if (kind === 'resumed' || kind === 'reopened') {
      state = stretches.length > 0 ? 'in_work' : 'open';
      initialled = second = false;
    } else if (kind === 'done') state = 'done';
    else if (kind === 'put_off') state = 'put_off';
    else if (kind === 'initialled') initialled = true;
    else second = true;
    if (state === 'done' && initialled && (second || !critical)) state = 'inspected';
  }
  return state;
}

// ── Finding ───────────────────────────────────────────────────────────────────
export const findingStates = [
  'noted',
  'assessed',
  'offered',
  'agreed',
  'declined',
  'put_off',
  'corrected',
] as const;
export type FindingState = (typeof findingStates)[number];

export const findingFacts = {
  provisionalClass: true,
  events: {
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
    select: {
      ...{ kind: true, class: true, meaning: true },
      ...{ untilOn: true, untilHundredths: true, untilInspection: true },
    },
  },
  quotes: { select: quoteFacts },
  corrections: { select: itemFacts },
} satisfies Prisma.FindingSelect;

export interface FindingFacts {
  provisionalClass: FindingClass;
  events: readonly { kind: FindingEventKind; class: FindingClass | null }[];
  quotes: readonly QuoteFacts[];
  corrections: readonly ItemFacts[];
}

export function findingState(finding: FindingFacts, today: Date): FindingState {
  const corrected = finding.corrections.some((item) =>
    ['done', 'inspected'].includes(itemState(item)),
  );
  // Put right on a later visit, as somebody said by name.
  if (corrected || finding.events.at(-1)?.kind === 'settled') return 'corrected';
  if (finding.events.at(-1)?.kind === 'put_off') return 'put_off';
  const offers = finding.quotes.map((quote) => quoteState(quote, today));
  if (offers.includes('accepted')) return 'agreed';
  if (offers.includes('sent') || offers.includes('lapsed')) return 'offered';
  if (offers.includes('declined')) return 'declined';
  return finding.events.some(({ kind }) => kind === 'assessed') ? 'assessed' : 'noted';
}

/** The class a qualified person gave last; the finder's own until then. */
export function findingClass(
  finding: Pick<FindingFacts, 'provisionalClass' | 'events'>,
): FindingClass {
  return (
    finding.events.findLast((event) => event.class !== null)?.class ?? finding.provisionalClass
  );
}

// ── Order ─────────────────────────────────────────────────────────────────────
export const orderStates = [
  'planned',
  'here',
  'ready_to_sign',
  'released',
  'closed',
  'cancelled',
] as const;
export type OrderState = (typeof orderStates)[number];

export const orderFacts = {
  events: { select: { kind: true } },
  items: { select: itemFacts },
} satisfies Prisma.WorkOrderSelect;

export interface OrderFacts {
  events: readonly { kind: OrderEventKind }[];
  items: readonly ItemFacts[];
}

/** Ready to sign: here, and every item inspected or put off. */
export function orderState({ events, items }: OrderFacts): OrderState {
  const happened = new Set(events.map(({ kind }) => kind));
  for (const end of ['cancelled', 'closed', 'released'] as const) if (happened.has(end)) return end;
  if (!happened.has('arrived')) return 'planned';
  const finished =
    items.length > 0 && items.every((item) => ['inspected', 'put_off'].includes(itemState(item)));
  return finished ? 'ready_to_sign' : 'here';
}

// ── Invoice ───────────────────────────────────────────────────────────────────
export const invoiceStates = ['draft', 'issued', 'credited'] as const;
export type InvoiceState = (typeof invoiceStates)[number];

export const invoiceFacts = {
  issuedAt: true,
  // One that takes back cores alone leaves its invoice as it was issued.
  creditNotes: { where: { issuedAt: { not: null }, inPart: false }, select: { id: true } },
} satisfies Prisma.InvoiceSelect;

export function invoiceState(invoice: {
  issuedAt: Date | null;
  creditNotes: readonly unknown[];
}): InvoiceState {
  if (!invoice.issuedAt) return 'draft';
  return invoice.creditNotes.length > 0 ? 'credited' : 'issued';
}

// ── Mail ──────────────────────────────────────────────────────────────────────
export const mailStates = ['waits', 'sent', 'failed', 'kept', 'put_away'] as const;
export type MailState = (typeof mailStates)[number];

export const mailFacts = {
  events: { orderBy: { seq: 'asc' }, select: { kind: true, at: true, words: true, nextAt: true } },
} satisfies Prisma.MailSelect;

/** The newest event speaks for a mail; before there is one it waits. */
export function mailState({ events }: { events: readonly { kind: MailEventKind }[] }): MailState {
  switch (events.at(-1)?.kind) {
    case 'sent':
    case 'kept':
    case 'put_away':
      return events.at(-1)?.kind as MailState;
    case 'refused':
    case 'given_up':
      return 'failed';
    default:
      return 'waits';
  }
}
