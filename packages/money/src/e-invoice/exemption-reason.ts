import type { IssuedDocument } from './issued-document.ts';

/**
 * Why what is in category E of a document is not taxed (BT-120). EN 16931 has one breakdown for all of category E (BR-E-01),
 * and so one reason: those of its lines, each once, in their order, and the seller's own for lines without one. Nothing where
 * some line has none and the seller neither.
 */
export function exemptionReason({
  lines,
  seller,
}: Pick<IssuedDocument, 'lines' | 'seller'>): string {
  const reasons = lines
    .filter(({ taxCategory }) => taxCategory === 'E')
    .map(({ taxReason }) => (taxReason ?? '').trim() || (seller?.exemptionReason ?? '').trim());
  return reasons.includes('') ? '' : [...new Set(reasons)].join('; ');
}
