import { allow, type Context } from '../../context.ts';
import { notFound, Refused } from '../../errors.ts';
import { givenText, sayDay } from '../../given.ts';
import { holdFor } from '../../hold.ts';
import { shopToday } from '../../today.ts';

export interface AddDataSourceInput {
  title: string;
  everyDays: number;
  revision: string;
  checkedOn: Date | null;
}

/** A manual whose revision is looked up from time to time joins the list, with the revision that is current. */
export async function addDataSource(context: Context, input: AddDataSourceInput): Promise<string> {
  const { personId, shopId } = await allow(context, 'inspector', 'manager');
  const title = givenText(input.title, 'title', { least: 2, most: 200 });
  const revision = givenText(input.revision, 'revision', { least: 1, most: 100 });
  const { everyDays } = input;
  if (everyDays < 1 || everyDays > 3660)
    throw new Refused('BAD_INPUT', `everyDays is ${everyDays}: needed is 1 to 3660.`, 'everyDays');
  const today = await shopToday(context);
  const checkedOn = notLater(input.checkedOn, today);
  return context.write(async (tx) => {
    await holdFor(tx, 'data sources', 'of the shop');
    const known = await tx.dataSource.findFirst({ where: { title }, select: { id: true } });
    if (known)
      throw new Refused(
        'CONFLICT',
        `“${title}” is on the list already: say there that its revision was looked up.`,
        'title',
      );
    const { id } = await tx.dataSource.create({
      data: { shopId, title, everyDays, addedAt: context.now(), addedById: personId },
      select: { id: true },
    });
    await tx.dataCheck.create({
      data: { sourceId: id, revision, checkedOn, at: context.now(), byId: personId },
      select: { id: true },
    });
    return id;
  });
}

/** Somebody looked up which revision is current. */
export async function checkData(
  context: Context,
  input: { sourceId: string; revision: string; checkedOn: Date | null },
): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const revision = givenText(input.revision, 'revision', { least: 1, most: 100 });
  const { sourceId } = input;
  const today = await shopToday(context);
  const checkedOn = notLater(input.checkedOn, today);
  return context.write(async (tx) => {
    await holdFor(tx, 'data sources', 'of the shop');
    const source = await tx.dataSource.findUnique({
      where: { id: sourceId },
      select: {
        checks: { orderBy: { checkedOn: 'desc' }, take: 1, select: { checkedOn: true } },
      },
    });
    if (!source) throw notFound('data source');
    const [last] = source.checks;
    if (last && checkedOn < last.checkedOn)
      throw new Refused(
        'BAD_INPUT',
        `It was looked up on ${sayDay(last.checkedOn)} already: what was found before that counts no more.`,
        'checkedOn',
      );
    await tx.dataCheck.create({
      data: { sourceId, revision, checkedOn, at: context.now(), byId: personId },
      select: { id: true },
    });
    return sourceId;
  });
}

function notLater(given: Date | null, today: Date): Date {
  if (given && given > today)
    throw new Refused(
      'BAD_INPUT',
      `Looked up on ${sayDay(given)} was refused: today is ${sayDay(today)}.`,
      'checkedOn',
    );
  return given ?? today;
}
