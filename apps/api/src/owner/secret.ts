import { createHash, createHmac, randomBytes, timingSafeEqual } from 'node:crypto';

/** A private link's secret: 256 random bits (base64url, RFC 4648 section 5), which only its address ever holds. */
export const makeSecret = () => randomBytes(32).toString('base64url');

/** What is kept of a secret. Whatever somebody typed has a hash, so that a wrong one takes the same way as a right one. */
export const hashOf = (secret: string): Uint8Array<ArrayBuffer> =>
  new Uint8Array(createHash('sha256').update(secret).digest());

/** Which words stood on the page; sent back with the answer, so that an answer to other words is noticed. */
export const digestOf = (words: string) => createHash('sha256').update(words).digest('base64url');

/**
 * A sentence that travels through the address of a page, from a refused answer to the page that shows it. Sealed, so
 * that nobody makes the page say something that the shop did not say, and good for one link only.
 */
export const sealOf = (key: string, secret: string, sentence: string) =>
  createHmac('sha256', key).update(`${secret}\n${sentence}`).digest('base64url');

/** The sentence, where its seal is right; otherwise null. */
export function unsealed(
  key: string,
  secret: string,
  { note, seal }: { note: unknown; seal: unknown },
): string | null {
  if (typeof note !== 'string' || typeof seal !== 'string') return null;
  const [given, right] = [Buffer.from(seal), Buffer.from(sealOf(key, secret, note))];
  return given.length === right.length && timingSafeEqual(given, right) ? note : null;
}
