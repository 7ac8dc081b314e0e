import type { WorkState } from '../../components/Hatch.tsx';
import type {
  FindingState,
  ItemState,
  OrderState,
  WaitingFor,
} from '../../graphql/generated/graphql.ts';
import { waitsFor } from '../hangar/floor-words.ts';

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
  items: { state: ItemState; waitingFor: WaitingFor | null; runningBy: { initials: string }[] }[];
  findings: { state: FindingState }[];
}

/** An order's state with the hatch that it has on the floor, and whom it waits for. */
export function orderMark(order: OrderFacts): StateMark & { waitsFor?: string } {
  const { state, outcome, items } = order;
  if (state === 'here') {
    if (items.some(({ runningBy }) => runningBy.length > 0)) {
      return { state: 'in_work', word: 'here, in work' };
    }
    const waits = waitsFor(order);
    if (waits.length > 0) {
      return { state: 'waiting', word: 'here, waits', waitsFor: waits.join(', ') };
    }
    if (items.every((item) => item.state === 'open')) {
      return { state: 'planned', word: 'here, not begun' };
    }
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
