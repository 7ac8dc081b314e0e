import type { Tx } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { holdFor } from '../hold.ts';
import { givenMoment } from './given-moment.ts';
import { atMost, clientId, text } from './limits.ts';

/** As many pictures as one note holds. */
export const MOST_PHOTOS = 4;

export interface LearnNoteInput {
  itemId: string | null;
  partId: string | null;
  /** True: it holds on every model, not only on the item's. */
  everyModel: boolean;
  words: string;
  photoIds: readonly string[];
  /** When, as its device knows it; null: now. */
  at: Date | null;
  clientEventId: string;
}

/**
 * Keeps what somebody learned, for whoever does the task next on this model, or handles the part. The same one sent twice
 * is kept once.
 */
export async function learnNote(context: Context, input: LearnNoteInput): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const words = text(input.words, 'words', { least: 3, most: 500 });
  const clientEventId = clientId(input.clientEventId);
  const { at } = givenMoment(input, context);
  const photoIds = [...new Set(atMost(input.photoIds, 'photoIds', MOST_PHOTOS))];

  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'note', clientEventId);
    const known = await tx.learnedNote.findFirst({
      where: { clientEventId },
      select: { id: true, byId: true },
    });
    if (known?.byId === personId) return known.id;
    if (known)
      throw new Refused(
        'CONFLICT',
        'Somebody else’s note has this clientEventId already: needed is a new one.',
        'clientEventId',
      );
    const about = await aboutWhat(tx, input);
    if ((await tx.photo.count({ where: { id: { in: photoIds } } })) !== photoIds.length)
      throw notFound('photo');
    // save
    const note = await tx.learnedNote.create({
      data: {
        ...about,
        itemId: input.itemId,
        words,
        clientEventId,
        at,
        byId: personId,
      },
      select: { id: true },
    });
    await tx.learnedNotePhoto.createMany({
      data: photoIds.map((photoId, index) => ({
        noteId: note.id,
        photoId,
        position: index + 1,
      })),
    });
    return note.id;
  });
}

async function aboutWhat(tx: Tx, { itemId, partId, everyModel }: LearnNoteInput) {
  const item =
    itemId === null
      ? null
      : await tx.workItem.findUnique({
          where: { id: itemId },
          select: {
            title: true,
            taskId: true,
            order: { select: { aircraft: { select: { modelId: true } } } },
          },
        });
  if (itemId !== null && !item) throw notFound('item');
  if (partId !== null) {
    if (!(await tx.part.findUnique({ where: { id: partId }, select: { id: true } })))
      throw notFound('part');
    return { partId };
  }
  if (!item)
    throw new Refused(
      'BAD_INPUT',
      'Nothing says what the note is about: needed is an item or a part.',
      'itemId',
    );
  if (item.taskId === null)
    throw new Refused(
      'AGAINST_RULE',
      `“${item.title}” is none of the shop’s tasks, so nobody would meet the note again: note it at the part, or at an item that is a task.`,
      'itemId',
    );
  return {
    taskId: item.taskId,
    ...(!everyModel && { modelId: item.order.aircraft.modelId }),
  };
}
