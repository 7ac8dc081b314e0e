import type { Tx } from '@fairlead/database';
import { givenText } from '../given.ts';

/** More than so many with one number are a list to look through, not an answer. */
const MOST = 20;

/** How two numbers are held against each other: letters and digits alone, whatever is printed between them. */
const bare = (text: string) => text.replace(/[^\p{L}\p{N}]/gu, '').toUpperCase();

/**
 * What a code names that was read or typed whole: parts by their number, lots by batch, serial number or certificate.
 * Blanks, hyphens and case do not count. Two statements.
 *
 * @throws Refused for a code without a letter or digit
 */
export async function findInStores(
  read: Tx,
  given: string,
): Promise<{ lotIds: string[]; partIds: string[] }> {
  const code = givenText(bare(givenText(given, 'code', { most: 200 })), 'code', {
    least: 1,
    most: 200,
  });
  const strip = '[^[:alnum:]]';
  const parts = await read.$queryRaw<{ id: string }[]>`
    SELECT id::text FROM part WHERE upper(regexp_replace(number, ${strip}, '', 'g')) = ${code}
    ORDER BY number LIMIT ${MOST}`;
  const lots = await read.$queryRaw<{ id: string }[]>`
    SELECT id::text FROM lot
    WHERE upper(regexp_replace(batch, ${strip}, '', 'g')) = ${code}
      OR upper(regexp_replace(tag, ${strip}, '', 'g')) = ${code}
    ORDER BY on_hand > 0 DESC, received_on DESC, id LIMIT ${MOST}`;
  return { lotIds: lots.map(({ id }) => id), partIds: parts.map(({ id }) => id) };
}
