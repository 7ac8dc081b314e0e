import type { Mark } from '../../components/PhotoMarks.tsx';
import type { UnsentFact } from '../safety/kept-facts.ts';

/** Photos with what was last marked over each, on this device too; `unsent`: the shop has not got that yet. */
export const marksNow = <Photo extends { id: string; marks: readonly Mark[] }>(
  photos: readonly Photo[],
  facts: readonly UnsentFact[],
): (Omit<Photo, 'marks'> & { marks: readonly Mark[]; unsent?: true })[] =>
  photos.map((photo) => {
    const last = facts.findLast(({ does, input }) => does === 'mark' && input.photoId === photo.id);
    return last?.does === 'mark' ? { ...photo, marks: last.input.marks, unsent: true } : photo;
  });
