import { type Minor, minor } from './amount.ts';
import type { Unbilled } from './unbilled.ts';
import type { WorkedLine } from './worked-line.ts';

/** One step on the way from what was quoted to what is billed. */
export interface DifferenceStep {
  readonly kind:
    | 'scope_added'
    | 'labour'
    | 'parts'
    | 'not_to_exceed'
    | 'line_ceiling'
    | 'order_ceiling';
  readonly lineId: string;
  /** What it adds; below 0 where it takes off. Never 0: a step that changes nothing is left out. */
  readonly amount: Minor;
  /** The step in words, without the figure. */
  readonly because: string;
}

/**
 * Why the bill differs from the quote, step by step: what was added with the owner's yes, labour over
 * or under what was quoted, parts dearer or cheaper, and what is held back. The steps add exactly to
 * billed − quoted, by construction: worked = quoted + added + labour + parts, billed = worked − held.
 */
export function explainDifference(
  worked: readonly WorkedLine[],
  unbilled: readonly Unbilled[],
): DifferenceStep[] {
  const steps = worked.flatMap(({ agreed, labour, parts }): DifferenceStep[] => {
    const { id: lineId, title } = agreed;
    const added = agreed.added === true ? agreed.quotedLabour + agreed.quotedParts : 0n;
    const moreLabour = labour - agreed.quotedLabour;
    const moreParts = parts - agreed.quotedParts;
    return [
      step('scope_added', lineId, added, `${title}: added with your agreement`),
      step(
        'labour',
        lineId,
        moreLabour,
        `${title}: ${moreLabour > 0n ? 'more' : 'less'} labour than quoted`,
      ),
      step(
        'parts',
        lineId,
        moreParts,
        `${title}: parts for ${moreParts > 0n ? 'more' : 'less'} than quoted`,
      ),
    ];
  });
  const titles = new Map(worked.map(({ agreed }) => [agreed.id, agreed.title]));
  const held = unbilled.map(({ lineId, amount, because }) =>
    step(because, lineId, -amount, `${titles.get(lineId) ?? lineId}: ${HELD[because]}`),
  );
  return [...steps, ...held].filter(({ amount }) => amount !== 0n);
}

const HELD = {
  not_to_exceed: 'held at the price not to be exceeded',
  line_ceiling: 'beyond what you agreed to for this line, not billed',
  order_ceiling: 'beyond what you agreed to for the order, not billed',
} as const;

function step(
  kind: DifferenceStep['kind'],
  lineId: string,
  amount: bigint,
  because: string,
): DifferenceStep {
  return { kind, lineId, amount: minor(amount), because };
}
