import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { keyChangeFaults, verifyArchive, writeKeyChange } from '../src/index.ts';
import { linesOf, newKey, type Part, packed, pieces, smallParts, withLines } from './archive.ts';

const key = newKey();
const before = newKey();
const parts = smallParts(key, { before });
const whole = packed(parts);
const verify = (bytes: Buffer, options = {}) => verifyArchive(pieces(bytes), options);
const saysOf = async (changed: readonly Part[]) =>
  (await verify(packed(changed))).faults.map(({ where, fault }) => `${where}: ${fault}`).join('; ');
const at = (name: string) => parts.findIndex((part) => part.name.startsWith(name));
const records = parts[at('records.jsonl')]!;
const exchanged = (part: Part, by: Part) => parts.map((one) => (one === part ? by : one));

describe('an archive as it was made', () => {
  it('holds, and says what it is', async () => {
    expect(await verify(whole)).toMatchObject({
      holds: true,
      faults: [],
      links: 6,
      entries: 2,
      decisions: 2,
      flightChecks: 1,
      inoperative: 1,
      attachments: 2,
      keys: { [before.fingerprint]: 2, [key.fingerprint]: 4 },
      keyChanges: [{ by: 'Ida Ros', lost: false }],
    });
  });
  it.each([1, 511, 512, 513, 1_000_000])(
    'holds however it arrives: pieces of %i bytes',
    async (size) => {
      expect((await verifyArchive(pieces(whole, size))).holds).toBe(true);
    },
  );
  it('holds without links', async () => {
    expect(await verify(packed(smallParts(key, { links: 0 })))).toMatchObject({
      holds: true,
      links: 0,
    });
  });
  it('holds with an archive inside that holds, and tells what that one says', async () => {
    const inner = { name: 'received/a.tar', bytes: whole };
    const verdict = await verify(packed(smallParts(newKey(), { more: [inner] })));
    expect(verdict).toMatchObject({ holds: true, received: [{ links: 6, holds: true }] });
  });
  it('does not hold when the archive inside was broken before it was sealed again', async () => {
    const broken = Buffer.from(whole);
    broken[600]! ^= 1;
    const verdict = await verify(
      packed(smallParts(newKey(), { more: [{ name: 'received/a.tar', bytes: broken }] })),
    );
    expect(verdict.faults).toEqual([
      { where: 'received/a.tar', fault: expect.stringMatching(/does not hold/) },
    ]);
  });
});

describe('1,000 random changes are all found', () => {
  /** Each takes dice and answers the changed archive. */
  const changes: Record<string, (dice: (below: number) => number) => Buffer> = {
    'a byte': (dice) => {
      const changed = Buffer.from(whole);
      changed[dice(whole.length)]! ^= 1 + dice(255);
      return changed;
    },
    'bytes cut off the end': (dice) => whole.subarray(0, dice(whole.length)),
    'bytes taken out': (dice) => {
      const from = dice(whole.length);
      return Buffer.concat([whole.subarray(0, from), whole.subarray(from + 1 + dice(900))]);
    },
    'bytes put in': (dice) => {
      const from = dice(whole.length + 1);
      return Buffer.concat([
        whole.subarray(0, from),
        Buffer.alloc(1 + dice(1200), dice(256)),
        whole.subarray(from),
      ]);
    },
    'a whole file left out, the rest packed anew': (dice) => {
      const out = dice(parts.length);
      return packed(parts.filter((_, index) => index !== out));
    },
    'two files in each other’s place': (dice) => {
      const [one, other] = [dice(parts.length), dice(parts.length - 1)];
      const to = other >= one ? other + 1 : other;
      const changed = [...parts];
      [changed[one], changed[to]] = [changed[to]!, changed[one]!];
      return packed(changed);
    },
    'a file twice': (dice) => packed([...parts, parts[dice(parts.length)]!]),
    'a byte of a file, packed anew': (dice) => {
      const part = parts[dice(parts.length)]!;
      const bytes = Buffer.from(part.bytes);
      bytes[dice(bytes.length)]! ^= 1 + dice(255);
      return packed(exchanged(part, { ...part, bytes }));
    },
    'a link left out': (dice) => {
      const lines = linesOf(records);
      lines.splice(dice(lines.length), 1);
      return packed(exchanged(records, withLines(records, lines)));
    },
    'the last links cut off': (dice) =>
      packed(exchanged(records, withLines(records, linesOf(records).slice(0, dice(6))))),
    'links in another order': (dice) => {
      const lines = linesOf(records);
      const [line] = lines.splice(dice(lines.length - 1), 1);
      lines.push(line!);
      return packed(exchanged(records, withLines(records, lines)));
    },
    'a link twice': (dice) => {
      const lines = linesOf(records);
      lines.splice(dice(lines.length), 0, lines[dice(lines.length)]!);
      return packed(exchanged(records, withLines(records, lines)));
    },
    'words of an entry': (dice) => {
      const lines = linesOf(records);
      const index = dice(lines.length);
      lines[index] = lines[index]!.replace(/What was done/, 'What was not done');
      return packed(exchanged(records, withLines(records, lines)));
    },
  };
  const kinds = Object.keys(changes);

  it('of content, order and count', async () => {
    const found = new Map<string, number>();
    let tried = 0;
    await fc.assert(
      fc.asyncProperty(
        fc.nat(kinds.length - 1),
        fc.infiniteStream(fc.nat(0x7fff_ffff)),
        async (kind, numbers) => {
          const name = kinds[kind]!;
          const changed = changes[name]!((below) => numbers.next().value % below);
          // Exchanging two things that are alike changes nothing.
          if (changed.equals(whole)) return;
          tried += 1;
          const { holds, faults } = await verify(changed);
          expect({ name, holds, said: faults.length > 0 }).toEqual({
            name,
            holds: false,
            said: true,
          });
          found.set(name, (found.get(name) ?? 0) + 1);
        },
      ),
      { numRuns: 1020 },
    );
    expect(tried).toBeGreaterThanOrEqual(1000);
    expect([...found.keys()].sort()).toEqual([...kinds].sort());
  }, 60_000);
});

describe('a key that took over from another', () => {
  const change = {
    ...{ from: before.publicKey, to: key.publicKey, at: '2026-03-14T09:00:00.000Z' },
    ...{ by: 'Ida Ros', reason: 'The disk is gone', lost: true },
  };
  const keys = parts[at('keys.jsonl')]!;
  const resealed = (line: string) =>
    smallParts(key, { more: [{ name: keys.name, bytes: Buffer.from(`${line}\n`) }] });
  it('is vouched for by the old one, and vouches for it', async () => {
    for (const { fingerprint } of [key, before])
      expect((await verify(whole, { trusted: [fingerprint] })).holds).toBe(true);
    expect((await verify(whole, { trusted: [newKey().fingerprint] })).faults).toHaveLength(2);
  });
  it('where the old one is lost, it is said as a break and is no fault; the old one vouches for nothing', async () => {
    const line = writeKeyChange(change, key, null);
    const bytes = packed(resealed(line));
    expect(await verify(bytes)).toMatchObject({
      ...{ holds: true, keyChanges: [{ lost: true, reason: 'The disk is gone' }] },
    });
    expect((await verify(bytes, { trusted: [before.fingerprint] })).holds).toBe(false);
  });
  it.each<[string, string, RegExp]>([
    ['nobody signed', writeKeyChange(change, newKey(), null), /the new key .* did not sign/],
    [
      'the old key did not sign',
      writeKeyChange({ ...change, lost: false }, key, newKey()),
      /the old key .* did not sign its hand-over/,
    ],
    ['nobody can read', '{"change":1}', /cannot be read/],
  ])('a hand-over that %s is a fault', async (_, line, says) => {
    const { holds, faults } = await verify(packed(resealed(line)));
    expect(holds).toBe(false);
    expect(faults[0]?.fault).toMatch(says);
  });
  it('an old key that signs after it was replaced is a fault', () => {
    const runs = new Map([
      [before.fingerprint, { first: 1, last: 5 }],
      [key.fingerprint, { first: 4, last: 6 }],
    ]);
    expect(keyChangeFaults([change], runs)).toEqual([
      `the key ${before.fingerprint} signed link 5, after it was replaced by ${key.fingerprint}`,
    ]);
    expect(
      keyChangeFaults([change], new Map([...runs, [before.fingerprint, { first: 1, last: 3 }]])),
    ).toEqual([]);
  });
  it('is not written with the old key where that is lost, nor without it where it is not', () => {
    expect(() => writeKeyChange(change, key, before)).toThrow(RangeError);
    expect(() => writeKeyChange({ ...change, lost: false }, key, null)).toThrow(RangeError);
  });
});

describe('what is said is about what was done', () => {
  it('a link left out', async () => {
    const lines = linesOf(records).filter((_, index) => index !== 2);
    expect(await saysOf(exchanged(records, withLines(records, lines)))).toMatch(
      /link 3: its number is 4: a link is missing, doubled or out of order; link 3: it does not join/,
    );
  });
  it('the tail cut off', async () => {
    expect(
      await saysOf(exchanged(records, withLines(records, linesOf(records).slice(0, 5)))),
    ).toMatch(/it has 5 links; the seal counts 6.*it does not end at the link that the seal names/);
  });
  it('a photo left out', async () => {
    expect(await saysOf(parts.filter((_, index) => index !== at('attachments/')))).toMatch(
      /attachments\/\w+\.jpg: it is missing.*link 2: its photo \w+… is missing/,
    );
  });
  it('everything written anew with another key: it holds, with that key', async () => {
    const other = newKey();
    const forged = packed(smallParts(other));
    expect((await verify(forged)).holds).toBe(true);
    const verdict = await verify(forged, { trusted: [key.fingerprint] });
    expect(verdict.faults).toEqual([
      { where: 'seal.json', fault: `the key ${other.fingerprint} is not one of those you named` },
    ]);
  });
  it.each([
    ['nothing', Buffer.alloc(0), /cut off at byte 0/],
    ['a picture', Buffer.from('\x89PNG\r\n'.repeat(400), 'latin1'), /cannot be read|was changed/],
  ])('%s is no archive', async (_, bytes, words) => {
    const { holds, faults } = await verify(bytes);
    expect(holds).toBe(false);
    expect(faults[0]?.fault).toMatch(words);
  });
});
