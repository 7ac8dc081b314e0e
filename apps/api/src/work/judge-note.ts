import { allow, type Context } from '../context.ts';
import { notFound } from '../errors.ts';
import { holdFor } from '../hold.ts';
import { cameBefore, type GivenMoment, givenMoment } from './given-moment.ts';

export interface JudgeNoteInput extends GivenMoment {
  noteId: string;
  stillTrue: boolean;
}

/** The last word by when it was said, however late it came. */
export const newestJudgement = {
  orderBy: [{ at: 'desc' as const }, { id: 'desc' as const }],
  take: 1,
};

/** Says that a note still holds, or no longer does. Said again by the same person it is kept once. */
export async function judgeNote(context: Context, input: JudgeNoteInput): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const { noteId, stillTrue } = input;
  const { at, clientEventId } = givenMoment(input, context);
  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'judgement', clientEventId ?? noteId);
    const note = await tx.learnedNote.findUnique({
      where: { id: noteId },
      select: { id: true, judgements: newestJudgement },
    });
    if (!note) throw notFound('note');
    const known =
      clientEventId === null
        ? null
        : await tx.learnedNoteJudgement.findFirst({ where: { clientEventId } });
    // decide
    if (cameBefore(known, personId, known?.noteId === noteId)) return note.id;
    const [newest] = note.judgements;
    if (newest?.stillTrue === stillTrue && newest.byId === personId) return note.id;
    // save
    await tx.learnedNoteJudgement.create({
      data: { noteId: note.id, stillTrue, at, clientEventId, byId: personId },
      select: { id: true },
    });
    return note.id;
  });
}
