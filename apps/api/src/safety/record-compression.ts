import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { givenText } from '../given.ts';
import { type GivenEvent, givenEvent, sentBefore } from './given-event.ts';
import { itemOnVisit } from './item-on-visit.ts';

export interface RecordCompressionInput extends GivenEvent {
  itemId: string;
  engine: string;
  supply: number;
  held: readonly number[];
  note: string;
}

const MOST_CYLINDERS = 18;

/** Records a differential-compression check, cylinder by cylinder, whatever it shows. What to do about it is a finding. */
export async function recordCompression(
  context: Context,
  input: RecordCompressionInput,
): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const { supply, held } = input;
  const given = {
    engine: givenText(input.engine, 'engine', { most: 60 }),
    note: givenText(input.note, 'note', { most: 500 }),
    supply,
    held: [...held],
    ...givenEvent(input, context),
  };
  if (supply < 1 || supply > 200)
    throw new Refused('BAD_INPUT', `supply is ${supply}: needed is 1 to 200 psi.`, 'supply');
  if (held.length === 0 || held.length > MOST_CYLINDERS)
    throw new Refused(
      'BAD_INPUT',
      `held has ${held.length} readings: needed is one for each cylinder, 1 to ${MOST_CYLINDERS}.`,
      'held',
    );
  const wrong = held.findIndex((reading) => reading < 0 || reading > supply);
  if (wrong >= 0)
    throw new Refused(
      'BAD_INPUT',
      `Cylinder ${wrong + 1} is given as ${held[wrong]} psi: needed is 0 to the ${supply} psi that were put in.`,
      'held',
    );
  return context.write(async (tx) => {
    // load
    const item = await itemOnVisit(tx, input.itemId, 'given a compression check');
    const known = await tx.compressionCheck.findFirst({
      where: { clientEventId: given.clientEventId },
      select: { id: true, byId: true },
    });
    // decide
    if (sentBefore(known, personId)) return known.id;
    // save
    const { id } = await tx.compressionCheck.create({
      data: { itemId: item.id, byId: personId, ...given },
      select: { id: true },
    });
    return id;
  });
}
