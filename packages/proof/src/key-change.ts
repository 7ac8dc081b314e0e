import { canonical, readCanonical } from './canonical.ts';
import { fingerprintOf, isPublicKey, type PublicKey, type SigningKey, signedBy } from './keys.ts';

/** How a shop's key took over from the one before, in the order in which they did. */
export const KEYS = 'keys.jsonl';

/** What is signed when a new key takes over. */
export interface KeyChange {
  readonly from: PublicKey;
  readonly to: PublicKey;
  /** ISO 8601 in UTC. */
  readonly at: string;
  /** Who says so, by name, and why. */
  readonly by: string;
  readonly reason: string;
  /** The old key is gone, or is trusted no more: it signs nothing of this. */
  readonly lost: boolean;
}

const WRITTEN_BEFORE = 'fairlead key change 1\n';
const signedText = (change: KeyChange) => WRITTEN_BEFORE + canonical(change);

/**
 * One line of keys.jsonl: signed by the new key, and by the old one where that is still there.
 *
 * @throws RangeError where the old key is there and the change says that it is lost, or the other way round
 */
export function writeKeyChange(change: KeyChange, to: SigningKey, from: SigningKey | null): string {
  if (change.lost !== (from === null))
    throw new RangeError(
      change.lost
        ? 'A key that is lost cannot sign its hand-over'
        : 'A hand-over is signed by the old key: it was not given',
    );
  const text = signedText(change);
  return canonical({
    change,
    signature: to.sign(text).toString('base64url'),
    handedOver: from ? from.sign(text).toString('base64url') : null,
  });
}

/**
 * Reads a line of keys.jsonl and checks its signatures.
 *
 * @returns the change, or the sentence that says what is wrong with it
 */
export function readKeyChange(line: string): KeyChange | string {
  const value = readCanonical(line) as {
    change?: Partial<KeyChange>;
    signature?: unknown;
    handedOver?: unknown;
  } | null;
  const { change, signature, handedOver } = value ?? {};
  const text = (given: unknown) => typeof given === 'string' && given !== '';
  if (
    !change ||
    Object.keys(value ?? {}).join() !== 'change,handedOver,signature' ||
    !isPublicKey(change.from) ||
    !isPublicKey(change.to) ||
    ![change.at, change.by, change.reason].every(text) ||
    typeof change.lost !== 'boolean' ||
    typeof signature !== 'string'
  )
    return 'it cannot be read: it is no change of a key in canonical JSON';
  const whole = change as KeyChange;
  if (!signedBy(whole.to, signedText(whole), signature))
    return `the new key ${fingerprintOf(whole.to)} did not sign that it takes over`;
  if (whole.lost) return handedOver === null ? whole : 'it says lost, and the old key signed it';
  if (typeof handedOver !== 'string' || !signedBy(whole.from, signedText(whole), handedOver))
    return `the old key ${fingerprintOf(whole.from)} did not sign its hand-over`;
  return whole;
}

/** First and last link of each key, by its fingerprint. */
export type KeyRuns = ReadonlyMap<string, { first: number; last: number }>;

/** What contradicts a change of key: a key that was handed over, and signed after the new one had begun. */
export function keyChangeFaults(changes: readonly KeyChange[], runs: KeyRuns): string[] {
  return changes.flatMap(({ from, to }, index) => {
    const [old, next] = [fingerprintOf(from), fingerprintOf(to)];
    const before = changes[index - 1];
    const [ran, begins] = [runs.get(old), runs.get(next)];
    return [
      ...(before && fingerprintOf(before.to) !== old
        ? [`the key ${old} is replaced, and ${fingerprintOf(before.to)} had taken over before`]
        : []),
      ...(ran && begins && ran.last > begins.first
        ? [`the key ${old} signed link ${ran.last}, after it was replaced by ${next}`]
        : []),
    ];
  });
}
