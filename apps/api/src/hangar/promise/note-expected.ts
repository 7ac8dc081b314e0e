import { allow, type Context } from '../../context.ts';
import { notFound, Refused } from '../../errors.ts';
import { givenText, sayDay } from '../../given.ts';
import { itemFacts, itemState, orderState } from '../../states.ts';
import { shopToday } from '../../today.ts';

export interface NoteExpectedInput {
  /** The work that waits; null: wherever the part is wanted. */
  itemId: string | null;
  partId: string | null;
  /** What comes, in words; null: the part's title. */
  what: string | null;
  /** Null: nobody can say any more. */
  expectedOn: Date | null;
  saidBy: string;
}

const DAYS_FAR = 730;

/** Keeps on which day somebody said that something comes which work waits for. The newest word on a thing holds. */
export async function noteExpected(context: Context, input: NoteExpectedInput): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'mechanic', 'inspector', 'manager');
  const { itemId, partId, expectedOn } = input;
  if (!itemId && !partId)
    throw new Refused(
      'BAD_INPUT',
      'A day was given for nothing: needed is the item that waits, or the part that is expected.',
      'itemId',
    );
  const today = await shopToday(context);
  if (expectedOn) refuseDay(expectedOn, today);
  const saidBy = givenText(input.saidBy, 'saidBy', { least: 1, most: 120 });

  return context.write(async (tx) => {
    // load
    const part = partId
      ? await tx.part.findUnique({ where: { id: partId }, select: { title: true } })
      : null;
    const item = itemId
      ? await tx.workItem.findUnique({
          where: { id: itemId },
          select: {
            ...itemFacts,
            position: true,
            title: true,
            order: {
              select: {
                number: true,
                events: { select: { kind: true } },
                items: { select: itemFacts },
              },
            },
          },
        })
      : null;
    if (partId && !part) throw notFound('part');
    if (itemId && !item) throw notFound('item');
    // decide
    const what = givenText(input.what ?? part?.title.slice(0, 120), 'what', {
      least: 1,
      most: 120,
    });
    if (item) {
      const order = orderState(item.order);
      if (!['planned', 'here', 'ready_to_sign'].includes(order))
        throw new Refused(
          'AGAINST_RULE',
          `Order ${item.order.number} is ${order}: nothing is expected for it any more.`,
        );
      const state = itemState(item);
      if (!['open', 'in_work', 'waiting'].includes(state))
        throw new Refused(
          'CONFLICT',
          `Item ${item.position}, “${item.title}”, is ${state === 'put_off' ? 'put off' : state}: nothing is expected for it any more.`,
        );
    }
    // save
    const { id } = await tx.expectation.create({
      data: {
        itemId,
        partId,
        what,
        expectedOn,
        saidBy,
        notedAt: context.now(),
        notedById: personId,
      },
      select: { id: true },
    });
    return id;
  });
}

function refuseDay(day: Date, today: Date): void {
  const ahead = (day.getTime() - today.getTime()) / 86_400_000;
  if (ahead < 0 || ahead > DAYS_FAR)
    throw new Refused(
      'BAD_INPUT',
      `Something expected on ${sayDay(day)} was refused: needed is a day from today, ${sayDay(today)}, to two years on. Where nobody can say, leave the day out.`,
      'expectedOn',
    );
}
