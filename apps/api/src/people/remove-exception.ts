import { allow, type Context } from '../context.ts';
import { notFound } from '../errors.ts';

/** Takes an exception back: the days are as the week says again. The audit keeps that it was there. */
export async function removeException(context: Context, exceptionId: string): Promise<void> {
  await allow(context, 'manager');
  await context.write(async (tx) => {
    const { count } = await tx.dayException.deleteMany({ where: { id: exceptionId } });
    if (count === 0) throw notFound('exception');
  });
}
