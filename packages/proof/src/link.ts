import { canonical, readCanonical } from './canonical.ts';
import { type SigningKey, sha256 } from './keys.ts';

export const linkKinds = ['entry', 'decision', 'flight_check', 'inoperative'] as const;
export type LinkKind = (typeof linkKinds)[number];

/** What is signed. It names its content by digest, so that a price can be left out and the chain still holds. */
export interface Statement {
  /** The aircraft, as the shop that keeps the chain knows it. */
  readonly chain: string;
  /** 1, 2, 3, … without a gap. */
  readonly seq: number;
  readonly kind: LinkKind;
  /** The entry or decision. */
  readonly subject: string;
  /** When it was linked, ISO 8601 in UTC. */
  readonly at: string;
  /** SHA-256 of the canonical content, hexadecimal. */
  readonly content: string;
  /** Hash of the link before; 64 zeros for the first. */
  readonly previous: string;
  /** Fingerprint of the key that signs. */
  readonly key: string;
}

/** Content of a link. `salt` keeps a content that is left out from being guessed. */
export type Content = { readonly salt: string } & Readonly<Record<string, unknown>>;

export interface Link {
  readonly statement: Statement;
  /** Null: left out, which the digest in the statement still stands for. */
  readonly content: Content | null;
  readonly signature: string;
}

/** What the first link points back to. */
export const NOTHING_BEFORE = '0'.repeat(64);

/** Written before what is signed, so that a signature counts for a link and for nothing else. */
const LINK = 'fairlead record link 1\n';
export const signedText = (statement: Statement): string => LINK + canonical(statement);

/** Hash of a link: SHA-256 over what is signed, hexadecimal. */
export const linkHash = (statement: Statement): string => sha256(signedText(statement));

/**
 * Makes and signs the next link of a chain.
 *
 * @throws RangeError for a number that is no whole number from 1
 */
export function makeLink(
  key: SigningKey,
  next: Omit<Statement, 'content' | 'key'>,
  content: Content,
): { link: Link; hash: string } {
  if (!Number.isSafeInteger(next.seq) || next.seq < 1)
    throw new RangeError(`A link cannot have the number ${next.seq}: needed is 1, 2, 3, …`);
  const statement: Statement = {
    ...next,
    content: sha256(canonical(content)),
    key: key.fingerprint,
  };
  const signature = key.sign(signedText(statement)).toString('base64url');
  return { link: { statement, content, signature }, hash: linkHash(statement) };
}

export const writeLink = (link: Link): string => canonical(link);

const hex = /^[0-9a-f]{64}$/;
const text = (value: unknown): value is string => typeof value === 'string' && value !== '';
const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const statementKeys = 'at,chain,content,key,kind,previous,seq,subject';

/** Reads one line of records.jsonl; null for what is no link in canonical JSON. */
export function readLink(line: string): Link | null {
  const value = readCanonical(line);
  if (!isRecord(value) || Object.keys(value).join() !== 'content,signature,statement') return null;
  const { statement, content, signature } = value;
  if (!isRecord(statement) || Object.keys(statement).join() !== statementKeys) return null;
  const { seq, kind, previous, content: digest, at } = statement;
  const fits =
    typeof seq === 'number' &&
    Number.isSafeInteger(seq) &&
    linkKinds.some((one) => one === kind) &&
    [statement['chain'], statement['subject'], statement['key'], at].every(text) &&
    typeof previous === 'string' &&
    hex.test(previous) &&
    typeof digest === 'string' &&
    hex.test(digest);
  if (!fits || !text(signature)) return null;
  if (content !== null && !(isRecord(content) && text(content['salt']))) return null;
  return value as unknown as Link;
}
