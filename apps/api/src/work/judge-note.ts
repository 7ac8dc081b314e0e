import { allow, type Context } from '../context.ts';
import { notFound } from '../errors.ts';

/** Says that a note still holds, or no longer does. Said again by the same person it is kept once. */
export async function judgeNote(
  context: Context,
  { noteId, stillTrue }: { noteId: string; stillTrue: boolean },
): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  return context.write(async (tx) => {
    // load
    const note = await tx.learnedNote.findUnique({
      where: { id: noteId },
      select: { id: true, judgements: { orderBy: { id: 'desc' }, take: 1 } },
    });
    if (!note) throw notFound('note');
    // decide
    const [newest] = note.judgements;
    if (newest?.stillTrue === stillTrue && newest.byId === personId) return note.id;
    // save
    await tx.learnedNoteJudgement.create({
      data: { noteId: note.id, stillTrue, at: context.now(), byId: personId },
    });
    return note.id;
  });
}
