import {
  createHash,
  createPrivateKey,
  createPublicKey,
  type KeyObject,
  sign,
  verify,
} from 'node:crypto';
import { canonical } from './canonical.ts';

/** A public key as it is handed out: Ed25519 as a JSON Web Key (RFC 8037), 32 bytes in base64url. */
export interface PublicKey {
  readonly crv: 'Ed25519';
  readonly kty: 'OKP';
  readonly x: string;
}

/** A key that signs: it never leaves the shop. */
export interface SigningKey {
  readonly publicKey: PublicKey;
  readonly fingerprint: string;
  /** 64 bytes, Ed25519 (RFC 8032) over the UTF-8 of a text. */
  sign(text: string): Buffer;
}

const encoded = /^[A-Za-z0-9_-]{43}$/;

/** Whether something is a public key in the form that is handed out. */
export function isPublicKey(value: unknown): value is PublicKey {
  if (typeof value !== 'object' || value === null) return false;
  const { crv, kty, x, ...more } = value as Record<string, unknown>;
  return (
    crv === 'Ed25519' &&
    kty === 'OKP' &&
    typeof x === 'string' &&
    encoded.test(x) &&
    Object.keys(more).length === 0
  );
}

/**
 * Fingerprint of a key: the thumbprint of RFC 7638 (SHA-256 over the canonical members crv, kty, x), base64url, 43 letters.
 *
 * @throws RangeError for what is no Ed25519 public key
 * @example fingerprintOf({ crv: 'Ed25519', kty: 'OKP', x: '11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo' }) // → 'kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k'
 */
export function fingerprintOf(key: PublicKey): string {
  if (!isPublicKey(key))
    throw new RangeError(
      'Needed is an Ed25519 key as {crv, kty, x} with x in 43 letters base64url',
    );
  const { crv, kty, x } = key;
  return createHash('sha256').update(canonical({ crv, kty, x })).digest('base64url');
}

/** A private key for use; as PEM (PKCS 8) or as node has it. */
export function signingKey(given: string | KeyObject): SigningKey {
  const key = typeof given === 'string' ? createPrivateKey(given) : given;
  if (key.asymmetricKeyType !== 'ed25519')
    throw new RangeError(
      `A key of type ${key.asymmetricKeyType ?? key.type} cannot sign here: needed is Ed25519`,
    );
  const { x = '' } = createPublicKey(key).export({ format: 'jwk' });
  const publicKey: PublicKey = { crv: 'Ed25519', kty: 'OKP', x };
  return {
    publicKey,
    fingerprint: fingerprintOf(publicKey),
    sign: (text) => sign(null, Buffer.from(text), key),
  };
}

/** Whether a signature in base64url is the key's over the UTF-8 of a text. */
export function signedBy(key: PublicKey, text: string, signature: string): boolean {
  const bytes = Buffer.from(signature, 'base64url');
  // base64url has several spellings of one value; only the one that is written counts.
  if (bytes.length !== 64 || bytes.toString('base64url') !== signature) return false;
  return verify(
    null,
    Buffer.from(text),
    createPublicKey({ format: 'jwk', key: { ...key } }),
    bytes,
  );
}

/** SHA-256 of bytes, or of the UTF-8 of a text, hexadecimal. */
export const sha256 = (data: string | Uint8Array): string =>
  createHash('sha256').update(data).digest('hex');
