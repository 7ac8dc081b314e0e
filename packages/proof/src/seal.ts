import { canonical, readCanonical } from './canonical.ts';
import { fingerprintOf, isPublicKey, type PublicKey, type SigningKey, signedBy } from './keys.ts';

export interface SealedFile {
  readonly name: string;
  readonly size: number;
  /** Of its bytes, hexadecimal. */
  readonly sha256: string;
}

/** The last member of an archive: what it holds, in order, how many links there are and where they end. */
export interface Seal {
  readonly version: 1;
  /** ISO 8601 in UTC. */
  readonly madeAt: string;
  readonly shop: { readonly name: string; readonly place: string };
  readonly aircraft: {
    readonly id: string;
    readonly registration: string;
    readonly serial: string;
    readonly maker: string;
    readonly model: string;
  };
  readonly links: number;
  /** Hash of the last link; 64 zeros where there is none. */
  readonly head: string;
  /** Every key that signed a link, and the one that seals. */
  readonly keys: readonly PublicKey[];
  /** Fingerprint of the key that seals. */
  readonly key: string;
  /** All members before the seal. */
  readonly files: readonly SealedFile[];
  /** Digests of photos that an entry names and whose file the shop no longer had. */
  readonly absent: readonly string[];
}

export const SEAL = 'seal.json';
export const RECORDS = 'records.jsonl';
export const ATTACHMENTS = 'attachments/';
export const RECEIVED = 'received/';

const WRITTEN_BEFORE = 'fairlead archive seal 1\n';

/** The bytes of seal.json. */
export const writeSeal = (key: SigningKey, seal: Omit<Seal, 'key' | 'version'>): string => {
  const whole: Seal = { ...seal, version: 1, key: key.fingerprint };
  const signature = key.sign(WRITTEN_BEFORE + canonical(whole)).toString('base64url');
  return canonical({ seal: whole, signature });
};

/**
 * Reads seal.json.
 *
 * @returns the seal, or the sentence that says what is wrong with it
 */
export function readSeal(text: string): Seal | string {
  const value = readCanonical(text) as { seal?: Seal; signature?: string } | null;
  const seal = value?.seal;
  if (!value || !seal || typeof value.signature !== 'string' || Object.keys(value).length !== 2)
    return 'the seal is not what a shop writes';
  if (seal.version !== 1)
    return `the seal is of version ${String(seal.version)}; this reads version 1`;
  if (!isWhole(seal)) return 'the seal is not what a shop writes';
  const { keys } = seal;
  const key = keys.find((one) => fingerprintOf(one) === seal.key);
  if (!key) return 'the seal does not hold the key that it names';
  return signedBy(key, WRITTEN_BEFORE + canonical(seal), value.signature)
    ? seal
    : 'the signature of the seal does not hold: it was changed, or another key made it';
}

const text = (value: unknown): value is string => typeof value === 'string';

function isWhole({ madeAt, shop, aircraft, links, head, keys, files, absent }: Seal): boolean {
  return (
    text(madeAt) &&
    text(head) &&
    Number.isSafeInteger(links) &&
    [shop?.name, shop?.place].every(text) &&
    [
      aircraft?.id,
      aircraft?.registration,
      aircraft?.serial,
      aircraft?.maker,
      aircraft?.model,
    ].every(text) &&
    Array.isArray(keys) &&
    keys.every(isPublicKey) &&
    Array.isArray(absent) &&
    absent.every(text) &&
    Array.isArray(files) &&
    files.every(
      (file: Partial<SealedFile> | null) =>
        text(file?.name) && text(file.sha256) && Number.isSafeInteger(file.size),
    )
  );
}
