export { countries, hasVatPrefix, isCountry } from './countries.ts';
export { exemptionReason } from './exemption-reason.ts';
export type { IssuedDocument, IssuedLine, Party, Seller } from './issued-document.ts';
export { CUSTOMIZATION, type UblElement, ublTree } from './ubl-tree.ts';
export { ublXml } from './ubl-xml.ts';
export { unitCode } from './unit-codes.ts';
export { whyNotEInvoice } from './why-not.ts';
