import { canonical } from './canonical.ts';
import { fingerprintOf, type PublicKey, sha256, signedBy } from './keys.ts';
import { type Link, linkHash, NOTHING_BEFORE, readLink, signedText } from './link.ts';

export interface Fault {
  /** Member of the archive, or link, that it is about. */
  readonly where: string;
  readonly fault: string;
}

export interface ChainTally {
  links: number;
  entry: number;
  decision: number;
  flight_check: number;
  inoperative: number;
  /** Links whose content was left out. */
  leftOut: number;
  /** Hash of the last link. */
  head: string;
  /** The aircraft whose chain it is; null before the first link. */
  chain: string | null;
  /** Digests of photos that contents name, with the first link that does. */
  readonly photos: Map<string, number>;
  /** First and last link of each key, by its fingerprint. */
  readonly keyRuns: Map<string, { first: number; last: number }>;
}

/** Reads the links of a chain one after the other, and holds of each only what its signature is checked by. */
export function readChain(fault: (where: string, what: string) => void) {
  const signatures: { seq: number; text: string; signature: string; key: string }[] = [];
  const tally: ChainTally = {
    links: 0,
    entry: 0,
    decision: 0,
    flight_check: 0,
    inoperative: 0,
    leftOut: 0,
    head: NOTHING_BEFORE,
    chain: null,
    photos: new Map(),
    keyRuns: new Map(),
  };
  return {
    tally,
    /** The next line. Returns its link, or null where it is none. */
    take(line: string): Link | null {
      tally.links += 1;
      const where = `link ${tally.links}`;
      const link = readLink(line);
      if (!link) {
        fault(where, 'it cannot be read: it is not canonical JSON of a link');
        return null;
      }
      const { statement, content, signature } = link;
      if (statement.seq !== tally.links)
        fault(where, `its number is ${statement.seq}: a link is missing, doubled or out of order`);
      if (statement.previous !== tally.head) fault(where, 'it does not join the link before it');
      tally.chain ??= statement.chain;
      if (statement.chain !== tally.chain)
        fault(where, 'it belongs to the chain of another aircraft');
      if (content === null) {
        tally.leftOut += 1;
        if (statement.kind !== 'decision')
          fault(
            where,
            `the content of an ${statement.kind === 'entry' ? 'entry' : 'event'} is missing`,
          );
      } else if (sha256(canonical(content)) !== statement.content)
        fault(where, 'its content was changed');
      tally[statement.kind] += 1;
      tally.head = linkHash(statement);
      const text = signedText(statement);
      signatures.push({ seq: tally.links, text, signature, key: statement.key });
      const run = tally.keyRuns.get(statement.key);
      tally.keyRuns.set(statement.key, { first: run?.first ?? tally.links, last: tally.links });
      for (const photo of photosOf(content))
        if (!tally.photos.has(photo)) tally.photos.set(photo, tally.links);
      return link;
    },
    /** Checks every signature. Returns how many links each key signed, by its fingerprint. */
    checkSignatures(keys: readonly PublicKey[]): Record<string, number> {
      const known = new Map(keys.map((key) => [fingerprintOf(key), key]));
      const signed: Record<string, number> = {};
      for (const { seq, text, signature, key } of signatures) {
        const publicKey = known.get(key);
        if (!publicKey) fault(`link ${seq}`, `the key ${key} that it names is not in the seal`);
        else if (!signedBy(publicKey, text, signature))
          fault(`link ${seq}`, 'its signature does not hold');
        else signed[key] = (signed[key] ?? 0) + 1;
      }
      return signed;
    },
  };
}

/**
 * Every fault of a chain, given its lines and the keys that may have signed it; none: it holds.
 *
 * @returns the faults, and the hash of the last link
 */
export function chainFaults(
  lines: Iterable<string>,
  keys: readonly PublicKey[],
): { faults: Fault[]; head: string } {
  const faults: Fault[] = [];
  const chain = readChain((where, what) => void faults.push({ where, fault: what }));
  for (const line of lines) chain.take(line);
  chain.checkSignatures(keys);
  return { faults, head: chain.tally.head };
}

/** Digests of the photos that a content names. */
export function photosOf(content: Link['content']): string[] {
  const photos: unknown = content?.['photos'];
  return Array.isArray(photos)
    ? photos.flatMap((photo: unknown) =>
        typeof photo === 'object' &&
        photo !== null &&
        'sha256' in photo &&
        typeof photo.sha256 === 'string'
          ? [photo.sha256]
          : [],
      )
    : [];
}
