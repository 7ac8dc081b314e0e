import type { Mark } from '../../components/PhotoMarks.tsx';
import type {
  Channel,
  Choice,
  DifferenceKind,
  FindingClass,
  FindingState,
  ItemState,
  OrderState,
  QuoteState,
  ReleaseOutcome,
  WaitingFor,
} from '../../graphql/generated/graphql.ts';
import { apiOrigin } from '../../lib/api-origin.ts';

/** When it is ready; days as YYYY-MM-DD. */
export interface OwnerPromise {
  beginsOn: string;
  p50: string | null;
  p80: string | null;
  atBestP50: string | null;
  atBestP80: string | null;
  sentence: string;
}

interface Amounts {
  low: string;
  likely: string;
  p80: string;
  high: string;
}

export interface Offer extends Amounts {
  id: string;
  number: number;
  title: string;
  state: QuoteState;
  /** Number of the finding that it corrects; null for the visit. */
  finding: number | null;
  revision: number;
  expiresOn: string;
  terms: string;
  currency: string;
  tax: string;
  /** Kept word for word with the answer: shown as it is. */
  words: string;
  digest: string;
  changed: { since: number; sentences: string[] } | null;
  promise: OwnerPromise | null;
  lines: (Amounts & {
    position: number;
    title: string;
    quantity: string;
    part: boolean;
    /** Why the work takes as long, in one sentence. */
    why: string | null;
  })[];
  /** What tends to be found in it: not offered, and not agreed with it. */
  foretold: { sentence: string; findings: { title: string; sentence: string }[] } | null;
  decisions: {
    revision: number;
    choice: Choice;
    by: string;
    channel: Channel;
    ceiling: string | null;
    decidedAt: string;
  }[];
}

export interface Finding {
  number: number;
  title: string;
  words: string;
  class: FindingClass;
  assessed: boolean;
  meaning: string;
  state: FindingState;
  /** That it stays inoperative, as 14 CFR 91.213(d) permits, in one sentence. */
  inoperative: string | null;
  foundAt: string;
  photos: { id: string; words: string; width: number; height: number; marks: Mark[] }[];
  pairs: { beforeId: string; afterId: string }[];
}

export interface OwnerInvoice {
  number: number;
  credit: boolean;
  currency: string;
  issuedAt: string;
  dueOn: string | null;
  net: string;
  tax: string;
  rounding: string;
  gross: string;
  paid: string;
  owed: string;
  lines: {
    position: number;
    title: string;
    quantity: string;
    unit: string;
    unitPrice: string;
    net: string;
    /** How it was reckoned, and why it is exempt from tax; else nothing. */
    note: string;
    taxReason: string;
  }[];
  quoted: string | null;
  difference: { kind: DifferenceKind; title: string; amount: string }[];
}

export interface OwnerOrder {
  number: number;
  title: string;
  state: OrderState;
  outcome: ReleaseOutcome | null;
  plannedFor: string | null;
  arrivedAt: string | null;
  items: { position: number; title: string; state: ItemState; waitingFor: WaitingFor | null }[];
  findings: Finding[];
  invoices: OwnerInvoice[];
  /** Computed anew from what is left; null where it is over. */
  promise: OwnerPromise | null;
}

/** What a private link opens. Apart from the loop's own schema: nobody is signed in here. */
export interface OwnerPageData {
  shop: { name: string; place: string; timeZone: string; currency: string };
  aircraft: { registration: string; maker: string; name: string };
  /** Name null: no longer a contact of the aircraft. Limit: how far their yes may go; null for no limit. */
  you: { name: string | null; limit: string | null };
  offers: Offer[];
  order: OwnerOrder | null;
  cautions: string[];
  /** A name of what is shown: another as soon as anything is another. */
  state: string;
  /** Why the last answer was not recorded. */
  note: string | null;
}

/** Asks for the page of a link; null where the link opens nothing. */
export async function fetchOwnerPage(
  secret: string,
  note: { note?: string; seal?: string },
): Promise<OwnerPageData | null> {
  if (!/^[\w-]{1,200}$/.test(secret)) return null;
  const address = new URL(`/owner/${secret}`, apiOrigin());
  address.search = new URLSearchParams(note).toString();
  const answer = await fetch(address, { cache: 'no-store' });
  if (answer.status === 404) return null;
  if (!answer.ok) throw new Error(`The owner's page answered ${answer.status}`);
  return (await answer.json()) as OwnerPageData;
}
