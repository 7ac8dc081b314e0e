import type { Prisma, Tx } from '@fairlead/database';

const MOST_TASKS = 3;

/**
 * Tasks of the shop that may be a piece of work: of the same JASC code, first those whose title shares most words with
 * it, and among those the ones that are described on the model.
 *
 * @param query what is asked of each task
 */
export async function tasksFor<Query extends Prisma.TaskFindManyArgs>(
  read: Tx,
  query: Query,
  work: { title: string; jasc: string },
  modelId: string,
) {
  const known = await read.task.findMany({
    where: { jasc: work.jasc },
    orderBy: { title: 'asc' },
    select: { id: true, title: true, places: { where: { modelId }, select: { id: true } } },
  });
  const wanted = wordsOf(work.title);
  const worth = ({ title, places }: (typeof known)[number]) =>
    [...wordsOf(title)].filter((word) => wanted.has(word)).length + (places.length > 0 ? 0.5 : 0);
  const best = known
    .toSorted((one, other) => worth(other) - worth(one))
    .slice(0, MOST_TASKS)
    .map(({ id }) => id);
  if (best.length === 0) return [];
  const tasks = await read.task.findMany({ ...query, where: { id: { in: best } } });
  return tasks.toSorted((one, other) => best.indexOf(one.id) - best.indexOf(other.id));
}

const wordsOf = (title: string) => new Set(title.toLowerCase().match(/[\p{L}]{3,}/gu) ?? []);
