import type { WorkState } from '../../components/Hatch.tsx';
import type { Capacity, Channel, Choice, QuoteState } from '../../graphql/generated/graphql.ts';

interface StateMark {
  state: WorkState;
  word: string;
  waitsFor?: string;
}

/** A quote's state with the hatch of the same weight as on the floor. */
export const quoteMarks: Record<QuoteState, StateMark> = {
  draft: { state: 'planned', word: 'draft' },
  sent: { state: 'waiting', word: 'sent, waits', waitsFor: 'the owner' },
  accepted: { state: 'released', word: 'accepted' },
  declined: { state: 'planned', word: 'declined' },
  lapsed: { state: 'planned', word: 'lapsed' },
};

export const channelWords: Record<Channel, string> = {
  telephone: 'by telephone',
  in_person: 'in person',
  email: 'by e-mail',
  owner_page: 'on the owner’s page',
};

export const choiceWords: Record<Choice, string> = {
  go_ahead: 'go ahead',
  not_now: 'not now',
  talk_first: 'talk to me first',
};

export const capacityWords: Record<Capacity, string> = {
  owner: 'owner',
  operator: 'operator',
  payer: 'pays for it',
};

/** Ways that a person at the desk may choose; the owner's page records itself. */
export const deskChannels = (['telephone', 'in_person', 'email'] as const).map((value) => ({
  value,
  words: channelWords[value],
}));
