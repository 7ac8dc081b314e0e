import type { WorkState } from '../../components/Hatch.tsx';
import type { ItemOnSheet } from './item-documents.ts';

type ItemState = ItemOnSheet['state'];

/** The hatch and the word of an item's state. */
export const stateMarks: Record<ItemState, { state: WorkState; word: string }> = {
  open: { state: 'planned', word: 'open' },
  in_work: { state: 'in_work', word: 'in work' },
  waiting: { state: 'waiting', word: 'waiting' },
  done: { state: 'ready_to_sign', word: 'done, not inspected' },
  inspected: { state: 'released', word: 'inspected' },
  put_off: { state: 'planned', word: 'put off' },
};

/** What an item waits for, as it stands behind "waiting for". */
export const waitingWords = {
  parts: 'parts',
  owner: 'the owner',
  bay: 'a bay',
  help: 'help',
  inspection: 'an inspection',
} as const;
