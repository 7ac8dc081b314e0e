import type { Minor } from '../amount.ts';

/** Somebody with a postal address (BG-5, BG-8); what is not known is left out. */
export interface Party {
  readonly name: string;
  readonly addressLine1?: string | undefined;
  readonly addressLine2?: string | undefined;
  readonly city?: string | undefined;
  readonly postcode?: string | undefined;
  /** ISO 3166-1 alpha-2. */
  readonly country?: string | undefined;
}

/** Whoever bills (BG-4). */
export interface Seller extends Party {
  /** BT-31, with the country's prefix. */
  readonly vatNumber?: string | undefined;
  /** BT-32: any other registration for tax. */
  readonly taxNumber?: string | undefined;
  /** BT-30: where the business itself is registered. */
  readonly registrationNumber?: string | undefined;
  /** BT-120: why category E is not taxed. */
  readonly exemptionReason?: string | undefined;
}

export interface IssuedLine {
  readonly position: number;
  readonly title: string;
  /** A plain decimal; below 0 for what is held back. */
  readonly quantity: string;
  readonly unit: string;
  readonly unitPrice: string;
  readonly net: Minor;
  readonly taxCategory: string;
  readonly taxRate: string;
  /** Of category E: why it is exempt, by the paper that says so; left out: for the seller's own reason. */
  readonly taxReason?: string | undefined;
}

/** An invoice or a credit note as the books keep it: amounts of a credit note are negative there. */
export interface IssuedDocument {
  readonly number: string;
  /** YYYY-MM-DD, in the shop's time zone. */
  readonly issuedOn: string;
  readonly dueOn: string | null;
  /** Free text about the document (BT-22). */
  readonly notes: readonly string[];
  readonly currency: string;
  /** Null: issued before this was kept. */
  readonly seller: Seller | null;
  readonly buyer: Party | null;
  readonly lines: readonly IssuedLine[];
  readonly net: Minor;
  readonly tax: Minor;
  /** What is to be paid before anything is: net, tax and rounding. */
  readonly gross: Minor;
  /** BT-114; left out: 0. */
  readonly rounding?: Minor;
  readonly paid: Minor;
  /** For a credit note: the invoice that it takes back (BG-3). */
  readonly credits: {
    readonly number: string;
    readonly issuedOn: string;
    /** Only the charge for old parts that came: the invoice stands otherwise. */
    readonly inPart?: boolean | undefined;
  } | null;
}
