import type { Request } from 'express';
import { Refused } from './errors.ts';

/**
 * Refuses what a form on a foreign page could have sent: it cannot set a header of its own, so the cookie alone is not enough.
 *
 * @param what what is sent, for the sentence: "A document"
 */
export function refuseForeignPage(request: Request, what: string): void {
  if (request.get('x-fairlead') !== '1')
    throw new Refused(
      'FORBIDDEN',
      `${what} is sent by the pages of the shop, with the header x-fairlead: 1; this request has none.`,
    );
}
