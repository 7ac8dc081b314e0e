import type { WorkState } from '../../components/Hatch.tsx';
import type { FindingState, ItemState, OrderState } from '../../graphql/generated/graphql.ts';

interface StateMark {
  state: WorkState;
  word: string;
}

const orderStates: Record<OrderState, StateMark> = {
  planned: { state: 'planned', word: 'planned' },
  here: { state: 'in_work', word: 'here' },
  ready_to_sign: { state: 'ready_to_sign', word: 'ready to sign' },
  released: { state: 'released', word: 'released' },
  closed: { state: 'released', word: 'closed' },
  cancelled: { state: 'planned', word: 'cancelled' },
};

interface OrderFacts {
  state: OrderState;
  outcome?: string | null | undefined;
  findings: readonly { state: string }[];
}

/** An order's state as on the floor; one whose owner must answer waits. */
export function orderMark({
  state,
  outcome,
  findings,
}: OrderFacts): StateMark & { waitsFor?: string } {
  const asks = findings.filter((finding) => finding.state === 'offered').length;
  if (state === 'here' && asks > 0) {
    const waitsFor = `the owner: ${asks} ${asks === 1 ? 'finding' : 'findings'}`;
    return { state: 'waiting', word: 'here, waits', waitsFor };
  }
  if (state === 'released' && outcome === 'not_airworthy_list_given') {
    return { state: 'released', word: 'released with its list' };
  }
  return orderStates[state];
}

export const itemMarks: Record<ItemState, StateMark> = {
  open: { state: 'planned', word: 'open' },
  in_work: { state: 'in_work', word: 'in work' },
  waiting: { state: 'waiting', word: 'waiting' },
  done: { state: 'ready_to_sign', word: 'done' },
  inspected: { state: 'released', word: 'inspected' },
  put_off: { state: 'planned', word: 'put off' },
};

export const findingMarks: Record<FindingState, StateMark & { waitsFor?: string }> = {
  noted: { state: 'planned', word: 'noted' },
  assessed: { state: 'planned', word: 'assessed, to be priced' },
  offered: { state: 'waiting', word: 'offered, waits', waitsFor: 'the owner' },
  agreed: { state: 'in_work', word: 'agreed' },
  declined: { state: 'planned', word: 'declined' },
  put_off: { state: 'planned', word: 'put off' },
  corrected: { state: 'released', word: 'corrected' },
};
