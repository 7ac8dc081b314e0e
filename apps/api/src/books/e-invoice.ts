import { ublXml } from '@fairlead/money/e-invoice';
import type { Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { issuedDocument } from './issued-document.ts';

/** An issued invoice or credit note as the text of a UBL 2.1 file, to EN 16931. */
export async function eInvoice(
  context: Context,
  id: string,
): Promise<{ filename: string; xml: string }> {
  const { document, issued, lacks } = await issuedDocument(context, id);
  const { number, credits } = document;
  if (!issued)
    throw new Refused(
      'AGAINST_RULE',
      'A draft has no e-invoice: it has no number and asks for no payment. Issue it first.',
    );
  const name = `${credits ? 'Credit note' : 'Invoice'} ${number}`;
  if (lacks.length > 0)
    throw new Refused(
      'AGAINST_RULE',
      `${name} cannot be written as an e-invoice. ${lacks.join(' ')} What it was issued with is never changed: set what is missing, ${credits ? 'and the next document has it' : 'credit it and bill the order again'}.`,
    );
  return { filename: `${name.toLowerCase().replaceAll(' ', '-')}.xml`, xml: ublXml(document) };
}
