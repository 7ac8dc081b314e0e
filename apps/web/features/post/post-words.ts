import type { WorkState } from '../../components/Hatch.tsx';
import type { MailEventKind, MailState } from '../../graphql/generated/graphql.ts';

/** A mail's state with the hatch of the same weight as everywhere. */
export const mailMarks: Record<MailState, { state: WorkState; word: string }> = {
  waits: { state: 'waiting', word: 'waits' },
  sent: { state: 'released', word: 'sent' },
  failed: { state: 'ready_to_sign', word: 'did not go' },
  kept: { state: 'in_work', word: 'kept here' },
  put_away: { state: 'planned', word: 'put away' },
};

export const eventWords: Record<MailEventKind, string> = {
  tried: 'Handing it over began',
  sent: 'The mail server took it',
  delayed: 'Not now',
  refused: 'Refused for good',
  given_up: 'Given up after five days',
  kept: 'Kept here: no mail server was set',
  asked_again: 'Tried again at the wish of',
  put_away: 'Put away by',
};
