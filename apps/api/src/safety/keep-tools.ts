import type { ToolKind } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenText, sayDay } from '../given.ts';
import { holdFor } from '../hold.ts';

export interface AddToolInput {
  kind: ToolKind;
  name: string;
  number: string;
  dueOn: Date;
  words: string;
}

/** A torque wrench or a piece of test gear joins the shop's list, with the day until which it is good. */
export async function addTool(context: Context, input: AddToolInput): Promise<string> {
  const { personId, shopId } = await allow(context, 'manager');
  const name = givenText(input.name, 'name', { least: 2, most: 120 });
  const number = givenText(input.number, 'number', { least: 1, most: 60 });
  const words = givenText(input.words, 'words', { most: 200 });
  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'tools', 'of the shop');
    const known = await tx.tool.findFirst({ where: { number }, select: { name: true } });
    // decide
    if (known)
      throw new Refused(
        'CONFLICT',
        `The number ${number} is that of “${known.name}” already: needed is one that stands on no other tool.`,
        'number',
      );
    // save
    const at = context.now();
    const { id } = await tx.tool.create({
      data: { shopId, kind: input.kind, name, number, addedAt: at },
      select: { id: true },
    });
    await tx.toolCalibration.create({
      data: { toolId: id, dueOn: input.dueOn, words, at, byId: personId },
      select: { id: true },
    });
    return id;
  });
}

/** A tool came back from its calibration: from now on it is good until another day. */
export async function calibrateTool(
  context: Context,
  input: { toolId: string; dueOn: Date; words: string },
): Promise<string> {
  const { personId } = await allow(context, 'manager');
  const words = givenText(input.words, 'words', { most: 200 });
  return context.write(async (tx) => {
    await holdFor(tx, 'tools', 'of the shop');
    const tool = await tx.tool.findUnique({
      where: { id: input.toolId },
      select: { id: true, name: true, retiredAt: true },
    });
    if (!tool) throw notFound('tool');
    if (tool.retiredAt)
      throw new Refused(
        'AGAINST_RULE',
        `“${tool.name}” was retired on ${sayDay(tool.retiredAt)}: add it again under another number to use it.`,
      );
    await tx.toolCalibration.create({
      data: { toolId: tool.id, dueOn: input.dueOn, words, at: context.now(), byId: personId },
      select: { id: true },
    });
    return tool.id;
  });
}

/** A tool leaves the shop's list. What was done with it keeps its name. */
export async function retireTool(context: Context, input: { toolId: string }): Promise<string> {
  await allow(context, 'manager');
  return context.write(async (tx) => {
    const tool = await tx.tool.findUnique({
      where: { id: input.toolId },
      select: { id: true, retiredAt: true },
    });
    if (!tool) throw notFound('tool');
    if (!tool.retiredAt)
      await tx.tool.update({
        where: { id: tool.id },
        data: { retiredAt: context.now() },
        select: { id: true },
      });
    return tool.id;
  });
}
