import { eInvoice } from '../books/index.ts';
import type { Context } from '../context.ts';
import { keyOf } from '../ids.ts';
import { kinds, plainName } from './kinds.ts';

export interface DrawFor {
  uploadsDir: string;
  webOrigin: string;
}

/**
 * A paper as it goes with a mail: a PDF on A4, or, for `invoice.xml`, the e-invoice of EN 16931.
 *
 * @throws RangeError for a kind that there is not; Refused where it cannot be printed
 */
export const drawForMail =
  ({ uploadsDir, webOrigin }: DrawFor) =>
  async (context: Context, { paper, subject }: { paper: string; subject: string }) => {
    if (paper === 'invoice.xml') {
      const { filename, xml } = await eInvoice(context, keyOf('Invoice', subject, 'subject'));
      return { filename, mime: 'application/xml', bytes: Buffer.from(xml, 'utf8') };
    }
    const kind = Object.hasOwn(kinds, paper) ? kinds[paper] : undefined;
    if (!kind) throw new RangeError(`There is no paper "${paper}" to send`);
    const ready = await kind.read(context, subject);
    await context.close();
    const bytes = await ready.print({ paper: 'a4', at: new Date(), uploadsDir, webOrigin });
    return { filename: `${plainName(ready.filename)}.pdf`, mime: 'application/pdf', bytes };
  };
