import { allow, type Context } from '../../context.ts';
import { notFound, Refused } from '../../errors.ts';
import { givenText, sayMinute } from '../../given.ts';
import { holdFor } from '../../hold.ts';

/** Says by name that something went to the authority, or why it is not owed. Late is said late, and stays so. */
export async function doDuty(
  context: Context,
  input: { dutyId: string; words: string },
): Promise<string> {
  const { personId } = await allow(context, 'inspector', 'front_desk', 'manager');
  const words = givenText(input.words, 'words', { least: 3, most: 500 });
  const { dutyId } = input;
  return context.write(async (tx) => {
    await holdFor(tx, 'duty', dutyId);
    const duty = await tx.duty.findUnique({
      where: { id: dutyId },
      select: { done: { select: { at: true, words: true, by: { select: { name: true } } } } },
    });
    if (!duty) throw notFound('duty');
    if (duty.done?.words === words) return dutyId;
    if (duty.done)
      throw new Refused(
        'CONFLICT',
        `${duty.done.by.name} said so already at ${sayMinute(duty.done.at)}: “${duty.done.words}”.`,
      );
    await tx.dutyDone.create({
      data: { dutyId, words, at: context.now(), byId: personId },
      select: { id: true },
    });
    return dutyId;
  });
}
