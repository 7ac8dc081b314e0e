import { allow, type Context } from '../context.ts';
import { notFound } from '../errors.ts';
import { givenText } from '../given.ts';
import { holdFor } from '../hold.ts';

/** Ends an exemption from tax before its day, from now on. Ended before, it stays as it was said first. */
export async function endExemption(
  context: Context,
  input: { exemptionId: string; reason: string },
): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'manager');
  const reason = givenText(input.reason, 'reason', { least: 3, most: 300 });
  const { exemptionId } = input;
  return context.write(async (tx) => {
    await holdFor(tx, 'exemption', exemptionId);
    const exemption = await tx.taxExemption.findUnique({
      where: { id: exemptionId },
      select: { id: true, ends: { select: { id: true } } },
    });
    if (!exemption) throw notFound('exemption');
    if (exemption.ends.length === 0)
      await tx.taxExemptionEnd.create({
        data: { exemptionId, reason, at: context.now(), byId: personId },
        select: { id: true },
      });
    return exemption.id;
  });
}
