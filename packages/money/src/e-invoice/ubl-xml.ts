import { create } from 'xmlbuilder2';
import type { IssuedDocument } from './issued-document.ts';
import { type UblElement, ublTree } from './ubl-tree.ts';

const UBL = 'urn:oasis:names:specification:ubl:schema:xsd:';

type Builder = ReturnType<typeof create>;

/**
 * An issued document as the text of a UBL 2.1 file, in UTF-8. Characters that XML 1.0 cannot hold become question marks.
 *
 * @throws RangeError where `whyNotEInvoice` has a reason
 */
export function ublXml(document: IssuedDocument): string {
  const tree = ublTree(document);
  const file = create({ version: '1.0', encoding: 'UTF-8', invalidCharReplacement: '?' });
  const root = file.ele(`${UBL}${tree.name}-2`, tree.name, {
    'xmlns:cac': `${UBL}CommonAggregateComponents-2`,
    'xmlns:cbc': `${UBL}CommonBasicComponents-2`,
  });
  fill(root, tree);
  return `${file.end({ prettyPrint: true })}\n`;
}

function fill(into: Builder, { content }: UblElement): void {
  if (typeof content === 'string') {
    into.txt(content);
    return;
  }
  for (const child of content) fill(into.ele(child.name, { ...child.attributes }), child);
}
