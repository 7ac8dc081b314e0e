import { canonical, sha256 } from '@fairlead/proof';

/** What somebody who signs says again who they are for. */
export interface WhatIsSigned {
  orderId: string;
  bookId: string;
  /** The text as it was read. */
  text: string;
}

/** Digest of what is to be signed: saying again who one is counts for this, and for nothing else. */
export const digestOfSigned = ({ orderId, bookId, text }: WhatIsSigned): string =>
  sha256(canonical({ orderId, bookId, text }));
