import type { AircraftKind } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { givenText } from '../given.ts';
import { holdFor } from '../hold.ts';
import { literally } from '../literally.ts';

/** Sizes in millimetres, as the floor needs them. */
const sizes = {
  lengthMm: 'The length of its airframe',
  spanMm: 'Its span, or the diameter of its main rotor',
  heightMm: 'Its height',
  parkedLengthMm: 'Its length as it is parked',
  parkedWidthMm: 'Its width as it is parked',
} as const;
type Sizes = Record<keyof typeof sizes, number>;

export interface AddModelInput extends Sizes {
  maker: string;
  name: string;
  kind: AircraftKind;
}

const [LEAST, MOST] = [500, 60_000];

/** A type of aircraft that the shop has not had yet. */
export async function addModel(context: Context, input: AddModelInput): Promise<string> {
  const { shopId } = await allow(context, 'front_desk', 'manager');
  const maker = givenText(input.maker, 'maker', { least: 2, most: 80 });
  const name = givenText(input.name, 'name', { least: 1, most: 80 });
  const measured = Object.fromEntries(
    Object.entries(sizes).map(([field, words]) => {
      const size = input[field as keyof Sizes];
      if (size < LEAST || size > MOST)
        throw new Refused(
          'BAD_INPUT',
          `${words} was given as ${size} mm: needed is ${LEAST} to ${MOST} mm.`,
          field,
        );
      return [field, size];
    }),
  ) as Sizes;
  return context.write(async (tx) => {
    await holdFor(tx, 'fleet', 'models');
    const twin = await tx.aircraftModel.findFirst({
      where: {
        maker: { equals: literally(maker), mode: 'insensitive' },
        name: { equals: literally(name), mode: 'insensitive' },
      },
      select: { maker: true, name: true },
    });
    if (twin)
      throw new Refused(
        'CONFLICT',
        `The shop knows a ${twin.maker} ${twin.name} already: choose it from the list.`,
        'name',
      );
    const { id } = await tx.aircraftModel.create({
      data: { shopId, maker, name, kind: input.kind, ...measured },
      select: { id: true },
    });
    return id;
  });
}
