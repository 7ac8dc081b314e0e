import type { SayOutcomeInput } from '../../graphql/generated/graphql.ts';

/** What somebody chose; `cause` is `other`, `normal`, `listed:` and a cause's id, or empty. */
export interface OutcomeChosen {
  choice: string;
  words: string;
}
export const nothingChosen: OutcomeChosen = { choice: '', words: '' };

/** Before the id of a cause that is listed. */
export const LISTED = 'listed:';
/** What is not listed is said in words. */
export const needsWords = (choice: string) => choice === 'other' || choice === 'normal';

/** Why it cannot be sent as it stands; null where it can, or where nothing was chosen. */
export const outcomeWrong = ({ choice, words }: OutcomeChosen): string | null =>
  needsWords(choice) && words.trim().length < 3 ? 'Say in a few words what it was.' : null;

/** What is sent; null where nothing was chosen. */
export function outcomeInput(
  findingId: string,
  symptom: string,
  { choice, words }: OutcomeChosen,
): SayOutcomeInput | null {
  if (choice === '') return null;
  if (choice.startsWith(LISTED))
    return { findingId, symptom, kind: 'listed', cause: choice.slice(LISTED.length) };
  return { findingId, symptom, kind: choice as 'other' | 'normal', words };
}
