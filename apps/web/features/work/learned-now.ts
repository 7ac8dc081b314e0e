import type { LearnedFragment } from '../../graphql/generated/graphql.ts';
import type { UnsentFact } from '../safety/kept-facts.ts';
import type { ItemOnSheet } from './item-documents.ts';

/** A note as it stands with what this device has noted; `unsent`: the shop has not got that yet. */
export type NoteNow = LearnedFragment & { unsent?: true };

/** A model that need not be named: it is the one before whoever reads. */
const thisModel = { id: '', name: '' };

/** What was learned on an item's task after what this device has noted, newest first. */
export function learnedNow(
  item: Pick<ItemOnSheet, 'id' | 'learned' | 'findings'>,
  facts: readonly UnsentFact[],
): NoteNow[] {
  let now: NoteNow[] = [...item.learned];
  for (const { does, input, id, at, name } of facts) {
    const by = { id: '', name };
    if (does === 'learn' && input.itemId === item.id) {
      // The shop has it by now, and the page has not let go of its own yet.
      if (now.some(({ clientEventId }) => clientEventId === id)) continue;
      const taken = item.findings.flatMap(({ photos }) => photos);
      const photos = (input.photoIds ?? []).flatMap(
        (photoId) => taken.find((photo) => photo.id === photoId) ?? [],
      );
      const model = input.everyModel === true ? null : thisModel;
      const said = { words: input.words, model, photos, at, by };
      const holds = { stillTrue: true, judgedAt: null, judgedBy: null };
      now = [{ id, clientEventId: id, ...said, ...holds, unsent: true }, ...now];
    }
    if (does === 'judge')
      now = now.map((note) =>
        note.id === input.noteId
          ? { ...note, stillTrue: input.stillTrue, judgedAt: at, judgedBy: by, unsent: true }
          : note,
      );
  }
  return now;
}

/** The begin of some words, for the line that says what is not sent. */
export const shortly = (words: string): string =>
  words.trim().length <= 60 ? words.trim() : `${words.trim().slice(0, 58)} …`;
