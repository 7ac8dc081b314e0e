/**
 * The structure of an e-invoice as somebody else wrote it down: the JSON schema of @e-invoice-eu/core 2.3.4 (npm), made
 * from the published rules of EN 16931 and UBL 2.1. It knows which elements there are, in which order, how many of each,
 * and the code lists (UNECE Recommendation 20, UNCL 5305, ISO 4217, ISO 3166 …); nothing of it is ours.
 */
import { invoiceSchema } from '@e-invoice-eu/core';
import type { Element } from '@xmldom/xmldom';
import { Ajv2019 } from 'ajv/dist/2019.js';
import { expect } from 'vitest';
import { readEInvoice } from './e-invoice-rules.ts';

interface Schema {
  readonly type?: 'object' | 'array' | 'string';
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly items?: Schema;
}

const fits = new Ajv2019({ allErrors: true, strict: false }).compile(invoiceSchema);
const invoice = (invoiceSchema as Schema).properties?.['ubl:Invoice'] as Schema;

/** The schema has invoices only; a credit note says the same under three other names (UBL-CreditNote-2.1). */
const asInvoice: Readonly<Record<string, string>> = {
  'cbc:CreditNoteTypeCode': 'cbc:InvoiceTypeCode',
  'cac:CreditNoteLine': 'cac:InvoiceLine',
  'cbc:CreditedQuantity': 'cbc:InvoicedQuantity',
};

const childrenOf = (element: Element): Element[] =>
  [...element.childNodes].filter((node): node is Element => node.nodeType === 1);
const nameOf = (element: Element) => asInvoice[element.nodeName] ?? element.nodeName;

/** One element as that schema writes it: an object whose keys stand in order, text for a leaf, `name@attribute` beside it. */
function asJson(element: Element, schema: Schema | undefined): unknown {
  const children = childrenOf(element);
  if (children.length === 0) return element.textContent ?? '';
  const json: Record<string, unknown> = {};
  for (const child of children) {
    const name = nameOf(child);
    const own = schema?.properties?.[name];
    const value = asJson(child, own?.type === 'array' ? own.items : own);
    if (own?.type === 'array') json[name] = [...((json[name] as unknown[]) ?? []), value];
    else if (name in json) throw new Error(`${name} stands twice in ${element.nodeName}`);
    else json[name] = value;
    for (const { name: attribute, value: said } of [...child.attributes])
      json[`${name}@${attribute}`] = said;
  }
  const order = Object.keys(schema?.properties ?? {});
  const places = children.map((child) => order.indexOf(nameOf(child)));
  expect(places, `${element.nodeName} is out of order`).toEqual([...places].sort((a, b) => a - b));
  return json;
}

/** Holds a document to that schema. */
export function fitsTheSchema(xml: string): void {
  fits({ 'ubl:Invoice': asJson(readEInvoice(xml), invoice) });
  // The one point on which it is stricter than the standard: BR-DEC names no price, and EN 16931-1 (6.5) leaves the decimals
  // of a unit price open; from memory.
  const errors = (fits.errors ?? []).filter(
    ({ instancePath, keyword }) => !(instancePath.endsWith('PriceAmount') && keyword === 'pattern'),
  );
  expect(errors).toEqual([]);
}
