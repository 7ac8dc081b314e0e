import type { ComponentKind } from '@fairlead/database';
import { allow, type Context } from '../../context.ts';
import { Refused } from '../../errors.ts';
import { givenText } from '../../given.ts';
import { holdFor } from '../../hold.ts';
import { type GivenCounts, refuseCounts } from '../counts.ts';
import { MOST_HUNDREDTHS } from '../most-hours.ts';

export interface AddPartInput {
  kind: ComponentKind;
  title: string;
  partNumber: string;
  serial: string;
  tisHundredths: number;
  sinceOverhaulHundredths: number | null;
  lifeLimitHundredths: number | null;
  /** As its papers say; null: they do not. */
  counts: GivenCounts;
}

/** A serialised part joins the shop's list with the times that its papers give; it lies on the shelf until it is fitted. */
export async function addPart(context: Context, input: AddPartInput): Promise<string> {
  const { shopId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const title = givenText(input.title, 'title', { least: 2, most: 120 });
  const partNumber = givenText(input.partNumber, 'partNumber', { least: 1, most: 100 });
  const serial = givenText(input.serial, 'serial', { least: 1, most: 100 });
  const { kind, tisHundredths, sinceOverhaulHundredths, lifeLimitHundredths } = input;
  for (const [field, value, least] of [
    ['tisHundredths', tisHundredths, 0],
    ['sinceOverhaulHundredths', sinceOverhaulHundredths, 0],
    ['lifeLimitHundredths', lifeLimitHundredths, 1],
  ] as const)
    if (value !== null && (value < least || value > MOST_HUNDREDTHS))
      throw new Refused(
        'BAD_INPUT',
        `${field} is ${value}: needed is ${least} to ${MOST_HUNDREDTHS}.`,
        field,
      );
  refuseCounts(input.counts);
  if (sinceOverhaulHundredths !== null && sinceOverhaulHundredths > tisHundredths)
    throw new Refused(
      'BAD_INPUT',
      `The times contradict each other: ${(sinceOverhaulHundredths / 100).toFixed(1)} h since overhaul are more than ${(tisHundredths / 100).toFixed(1)} h since new.`,
      'sinceOverhaulHundredths',
    );
  return context.write(async (tx) => {
    await holdFor(tx, 'parts', 'of the shop');
    const known = await tx.component.findFirst({
      where: { partNumber, serial },
      select: { title: true },
    });
    if (known)
      throw new Refused(
        'CONFLICT',
        `Part ${partNumber}, serial ${serial}, is known already: “${known.title}”. Fit that one.`,
        'serial',
      );
    const { id } = await tx.component.create({
      data: {
        ...{ shopId, kind, title, partNumber, serial, tisHundredths },
        ...{ sinceOverhaulHundredths, lifeLimitHundredths, ...input.counts },
      },
      select: { id: true },
    });
    return id;
  });
}
