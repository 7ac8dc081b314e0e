import { allow, type Context } from '../context.ts';
import { notFound } from '../errors.ts';

export interface PutAway {
  /** Its jobs stay in the shop: it had been taken in before it was put away. */
  takenIn: boolean;
  added: number;
}

/**
 * Takes the file off the desk. While it is being taken in, that ends with nothing imported: the
 * worker finds it gone and takes back what it saved.
 */
export async function putAwayUpload(context: Context, uploadId: string): Promise<PutAway> {
  await allow(context, 'manager');
  return context.write(async (tx) => {
    // One statement, so that whichever came first, the last row saved or this, is what is answered.
    const [gone] = await tx.$queryRaw<PutAway[]>`DELETE FROM history_upload
      WHERE shop_id = current_shop() AND id = ${uploadId}::uuid
      RETURNING taken_at IS NOT NULL AS "takenIn", added_rows AS added`;
    if (!gone) throw notFound('file on the desk');
    return gone;
  });
}
