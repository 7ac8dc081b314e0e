import { generateKeyPairSync } from 'node:crypto';
import {
  canonical,
  headerOf,
  KEYS,
  makeLink,
  NOTHING_BEFORE,
  type SealedFile,
  type SigningKey,
  sha256,
  signingKey,
  writeKeyChange,
  writeLink,
  writeSeal,
} from '../src/index.ts';

export const newKey = (): SigningKey => signingKey(generateKeyPairSync('ed25519').privateKey);

export interface Part {
  name: string;
  bytes: Buffer;
}

const MADE_AT = '2026-03-14T09:00:00.000Z';
const MTIME = Date.parse(MADE_AT) / 1000;

/** The archive's bytes, with headers that fit: what anybody can write who has no key. */
export const packed = (parts: readonly Part[]): Buffer =>
  Buffer.concat([
    ...parts.flatMap(({ name, bytes }) => [
      headerOf(name, bytes.length, MTIME),
      bytes,
      Buffer.alloc((512 - (bytes.length % 512)) % 512),
    ]),
    Buffer.alloc(1024),
  ]);

/** A small archive of an invented aircraft: links, two photos, a paper, and the seal. */
export function smallParts(
  key: SigningKey,
  { links = 6, more = [] as Part[], before = null as SigningKey | null } = {},
): Part[] {
  const photos = ['first photo', 'second photo'].map((words) => Buffer.from(words.repeat(80)));
  const lines: string[] = [];
  let previous = NOTHING_BEFORE;
  for (let seq = 1; seq <= links; seq += 1) {
    const kind =
      seq === 4
        ? ('flight_check' as const)
        : seq === 5
          ? ('inoperative' as const)
          : seq % 3 === 0
            ? ('decision' as const)
            : ('entry' as const);
    const { link, hash } = makeLink(
      // A key that was there before signed the first two.
      before && seq < 3 ? before : key,
      { chain: 'aircraft-1', seq, kind, subject: `${kind}-${seq}`, at: MADE_AT, previous },
      {
        salt: `salt ${seq}`,
        text: `What was done, number ${seq}.`,
        ...(seq === 2 && { photos: photos.map((photo) => ({ sha256: sha256(photo), words: '' })) }),
      },
    );
    lines.push(writeLink(link));
    previous = hash;
  }
  const parts: Part[] = [
    { name: 'README.txt', bytes: Buffer.from('What this is.\n') },
    { name: 'records.jsonl', bytes: Buffer.from(lines.map((line) => `${line}\n`).join('')) },
    ...photos.map((bytes) => ({ name: `attachments/${sha256(bytes)}.jpg`, bytes })),
    ...(before
      ? [
          {
            name: KEYS,
            bytes: Buffer.from(
              `${writeKeyChange(
                {
                  ...{ from: before.publicKey, to: key.publicKey, at: MADE_AT, lost: false },
                  ...{ by: 'Ida Ros', reason: 'A new machine' },
                },
                key,
                before,
              )}\n`,
            ),
          },
        ]
      : []),
    ...more,
  ];
  const files: SealedFile[] = parts.map(({ name, bytes }) => ({
    name,
    size: bytes.length,
    sha256: sha256(bytes),
  }));
  const seal = writeSeal(key, {
    madeAt: MADE_AT,
    shop: { name: 'Test Shop', place: 'Nowhere' },
    aircraft: { id: 'aircraft-1', registration: 'QQ-1', serial: '1', maker: 'M', model: 'N' },
    links,
    head: previous,
    keys: [...(before ? [before.publicKey] : []), key.publicKey],
    files,
    absent: [],
  });
  return [...parts, { name: 'seal.json', bytes: Buffer.from(seal) }];
}

export async function* pieces(bytes: Buffer, size = 700): AsyncGenerator<Buffer> {
  for (let at = 0; at < bytes.length; at += size) yield bytes.subarray(at, at + size);
}

/** Lines of records.jsonl, for whoever wants to change their order or number. */
export const linesOf = (part: Part): string[] => part.bytes.toString().trimEnd().split('\n');
export const withLines = (part: Part, lines: readonly string[]): Part => ({
  ...part,
  bytes: Buffer.from(lines.map((line) => `${line}\n`).join('')),
});
export { canonical };
