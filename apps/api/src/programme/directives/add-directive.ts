import { allow, type Context } from '../../context.ts';
import { notFound, Refused } from '../../errors.ts';
import { holdFor } from '../../hold.ts';
import { shopToday } from '../../today.ts';
import {
  type AddDirectiveInput,
  givenReaches,
  givenWords,
  refuseDirectiveTerms,
} from './given-directive.ts';

export type { AddDirectiveInput } from './given-directive.ts';

/**
 * Enters a directive, a bulletin or a maker's limit, with what it applies to. Its words never change: another revision, or a
 * mended entry, is entered anew and supersedes it.
 */
export async function addDirective(context: Context, input: AddDirectiveInput): Promise<string> {
  const { personId, shopId } = await allow(context, 'inspector', 'manager');
  const words = givenWords(input);
  const reaches = givenReaches(input);
  const today = await shopToday(context);
  refuseDirectiveTerms({ ...input, ...words }, today);
  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'directives', 'of the shop');
    const { kind, supersedesId, taskId } = input;
    const before = supersedesId
      ? await tx.directive.findUnique({
          where: { id: supersedesId },
          select: { kind: true, number: true, supersededBy: { select: { number: true } } },
        })
      : null;
    const alike = await tx.directive.findFirst({
      where: {
        ...{ kind, authority: words.authority, number: words.number, revision: words.revision },
        supersededBy: null,
      },
      select: { id: true, subject: true },
    });
    const wanted = [...new Set(reaches.flatMap(({ modelId }) => modelId ?? []))];
    const models = await tx.aircraftModel.count({ where: { id: { in: wanted } } });
    // decide
    if (supersedesId && !before) throw notFound('directive');
    if (before?.supersededBy)
      throw new Refused(
        'CONFLICT',
        `${before.number} is superseded by ${before.supersededBy.number} already: supersede that one.`,
        'supersedesId',
      );
    if (before && before.kind !== kind)
      throw new Refused(
        'BAD_INPUT',
        `A ${kind} cannot supersede ${before.number}, which is a ${before.kind}.`,
        'supersedesId',
      );
    if (alike && alike.id !== supersedesId)
      throw new Refused(
        'CONFLICT',
        `${words.number}${words.revision && `, revision ${words.revision}`} is entered already: “${alike.subject}”. To mend its entry, enter it anew as what supersedes it.`,
        'number',
      );
    if (models !== wanted.length) throw notFound('model');
    if (taskId && !(await tx.task.findUnique({ where: { id: taskId }, select: { id: true } })))
      throw notFound('task');
    // save
    const { reaches: _, ...terms } = input;
    const { id } = await tx.directive.create({
      data: { ...terms, ...words, shopId, addedById: personId, addedAt: context.now() },
      select: { id: true },
    });
    await tx.directiveReach.createMany({
      data: reaches.map((reach, index) => ({ ...reach, directiveId: id, position: index + 1 })),
    });
    return id;
  });
}
