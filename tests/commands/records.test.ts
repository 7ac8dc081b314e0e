import fs from 'node:fs';
import path from 'node:path';
import { afterAll, describe, expect, it, vi } from 'vitest';
import { newKey, packed, smallParts } from '../../packages/proof/tests/archive.ts';
import { records } from '../../scripts/records.ts';
import { folderFor } from './labour-command.ts';

const { folder } = folderFor();
afterAll(() => fs.rmSync(folder, { recursive: true }));

const key = newKey();
const whole = packed(smallParts(key));
const file = path.join(folder, 'QQ-1.tar');

async function run(bytes: Buffer | null, ...more: string[]) {
  if (bytes) fs.writeFileSync(file, bytes);
  let [out, told] = ['', ''];
  const write = vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
    out += String(text);
    return true;
  });
  const tell = vi.spyOn(process.stderr, 'write').mockImplementation((text) => {
    told += String(text);
    return true;
  });
  try {
    const code = await records(['verify', file, ...more]);
    return { code, told, json: out === '' ? null : JSON.parse(out) };
  } finally {
    write.mockRestore();
    tell.mockRestore();
  }
}

describe('records verify', () => {
  it('says that an archive holds, what that proves and what it does not', async () => {
    const { code, told, json } = await run(whole);
    expect([code, json.holds, json.entries, json.decisions, json.attachments]).toEqual([
      0,
      true,
      2,
      2,
      2,
    ]);
    expect(json).toMatchObject({ flightChecks: 1, inoperative: 1, keyChanges: [] });
    expect(json).toMatchObject({ sealedWith: key.fingerprint, keys: { [key.fingerprint]: 6 } });
    expect(told).toMatch(
      /It holds\.[\s\S]*No byte was changed[\s\S]*It does not prove:[\s\S]*anybody can make a key/,
    );
  });
  it('says how one key took over from another, by fingerprint', async () => {
    const before = newKey();
    const { code, told, json } = await run(packed(smallParts(key, { before })));
    expect([code, json.keyChanges[0].from, json.keyChanges[0].to]).toEqual([
      0,
      before.fingerprint,
      key.fingerprint,
    ]);
    expect(told).toContain(`the key ${before.fingerprint} handed over to ${key.fingerprint}`);
  });
  it('with the fingerprint from paper it says nothing of a stranger’s key', async () => {
    const { code, told } = await run(whole, '--keys', key.fingerprint);
    expect([code, /anybody can make a key/.test(told)]).toEqual([0, false]);
    const strange = await run(whole, `--keys=${newKey().fingerprint}`);
    expect([strange.code, strange.json.holds]).toEqual([1, false]);
    expect(strange.told).toMatch(/is not one of those you named/);
  });
  it.each([
    [
      'a changed byte',
      () => {
        const bytes = Buffer.from(whole);
        bytes[5000]! ^= 4;
        return bytes;
      },
    ],
    ['its end cut off', () => whole.subarray(0, whole.length - 2000)],
    ['nothing in it', () => Buffer.alloc(0)],
  ])('says where it does not hold: %s', async (_, bytes) => {
    const { code, told, json } = await run(bytes());
    expect([code, json.holds, json.proves]).toEqual([1, false, []]);
    expect(json.faults.length).toBeGreaterThan(0);
    expect(told).toMatch(/^It does not hold/);
  });
  it.each<[string, string[], RegExp]>([
    ['a file that is not there', [path.join(folder, 'none.tar')], /there is no such file/],
    ['no file', [], /It needs ARCHIVE\.tar; got nothing/],
    ['a fingerprint that is none', [file, '--keys', 'abc'], /"abc" is not a fingerprint/],
  ])('refuses %s', async (what, args, words) => {
    let told = '';
    const tell = vi.spyOn(process.stderr, 'write').mockImplementation((text) => {
      told += String(text);
      return true;
    });
    const code = await records(['verify', ...args]);
    tell.mockRestore();
    expect([code, told]).toEqual([what.startsWith('a file') ? 1 : 2, expect.stringMatching(words)]);
  });
});
