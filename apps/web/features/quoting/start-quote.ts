import type { DeskCatalogueQuery } from '../../graphql/generated/graphql.ts';
import { amountText } from './amount-field.ts';
import { mayAuthoriseAny } from './contact-options.ts';
import type { FindingToQuote } from './finding-document.ts';
import type { QuoteSheetData } from './quote-documents.ts';
import { nothingWanted, type Wanted, type WantedTask } from './use-wanted.ts';

/** Where the form starts, and what it makes. */
export interface QuoteStart {
  wanted: Wanted;
  terms: string;
  /** Set where the next revision of a quote is made. */
  revises: { quoteId: string; number: number; fromRevision: number; title: string } | null;
  /** Set where the quote is for a finding. */
  finding: { number: number; title: string; orderId: string; orderNumber: number } | null;
}

const blank: QuoteStart = { wanted: nothingWanted, terms: '', revises: null, finding: null };

/** Whom to ask first: the first who may authorise anything, or whoever stands first. */
export function firstContact(
  contacts: readonly { mayAuthorise?: string | null; contact: { id: string } }[],
): string {
  return (contacts.find(mayAuthoriseAny) ?? contacts[0])?.contact.id ?? '';
}

const contactOf = (aircraftId: string, { aircraft }: DeskCatalogueQuery) =>
  firstContact(aircraft.edges.find(({ node }) => node.id === aircraftId)?.node.contacts ?? []);

/** A blank form, or one that has its aircraft. */
export const startOf = (aircraftId: string, catalogue: DeskCatalogueQuery): QuoteStart => ({
  ...blank,
  wanted: { ...nothingWanted, aircraftId, contactId: contactOf(aircraftId, catalogue) },
});

/** The correction of a finding: its aircraft is given; its tasks are not, unless one was suggested. */
export function startFromFinding(
  { id, number, title, order }: FindingToQuote,
  catalogue: DeskCatalogueQuery,
  tasks: readonly WantedTask[] = [],
): QuoteStart {
  const aircraftId = order.aircraft.id;
  return {
    ...blank,
    wanted: {
      ...nothingWanted,
      aircraftId,
      contactId: contactOf(aircraftId, catalogue),
      findingId: id,
      tasks,
    },
    finding: { number, title, orderId: order.id, orderNumber: order.number },
  };
}

/** What the newest revision says, ready to be changed. */
export function startFromQuote(quote: QuoteSheetData): QuoteStart {
  const [newest] = quote.revisions;
  const packed = new Set(quote.package?.tasks.map(({ task }) => task.id) ?? []);
  const lines = newest?.lines ?? [];
  return {
    wanted: {
      aircraftId: quote.aircraft.id,
      contactId: quote.contact.id,
      packageId: quote.package?.id ?? '',
      findingId: quote.finding?.id ?? '',
      tasks: lines.flatMap(({ task, title, pricing, limit, likely }) =>
        task === null || packed.has(task.id)
          ? []
          : [
              {
                ...task,
                title,
                ...(pricing !== 'time_and_materials' && {
                  sold: {
                    pricing,
                    price: amountText(BigInt(limit ?? likely), newest?.currency ?? ''),
                  },
                }),
              },
            ],
      ),
      parts: lines.flatMap(({ part, quantity }) => (part === null ? [] : [{ ...part, quantity }])),
      charges: lines.flatMap(({ position, charge, title, likely, cost, percent, cap }) => {
        // A core follows its part.
        if (charge === null || charge === 'core') return [];
        const amount = (minor: string) => amountText(BigInt(minor), newest?.currency ?? '');
        const priced =
          charge === 'supplies' && percent !== null
            ? { price: '', cost: '', percent, atMost: cap === null ? '' : amount(cap) }
            : cost === null
              ? { price: amount(likely), cost: '', percent: '', atMost: '' }
              : { price: '', cost: amount(cost), percent: percent ?? '', atMost: '' };
        return [{ id: `${position}`, kind: charge, title, ...priced }];
      }),
    },
    terms: newest?.terms ?? '',
    revises: {
      quoteId: quote.id,
      number: quote.number,
      fromRevision: newest?.revision ?? 1,
      title: quote.title,
    },
    finding:
      quote.finding === null || quote.order === null
        ? null
        : {
            number: quote.finding.number,
            title: quote.finding.title,
            orderId: quote.order.id,
            orderNumber: quote.order.number,
          },
  };
}
