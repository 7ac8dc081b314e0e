import { existsSync, mkdirSync, mkdtempSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import {
  arrivingFile,
  leavingFolder,
  receivedFile,
  sweepArchives,
} from '../src/records/archive/archive-files.ts';

let uploads: string;
beforeEach(() => {
  uploads = mkdtempSync(path.join(os.tmpdir(), 'fairlead-sweep-'));
});
afterEach(() => rmSync(uploads, { recursive: true }));

const now = new Date('2031-05-04T12:00:00Z');
const touched = (file: string, hoursAgo: number) => {
  const at = new Date(now.getTime() - hoursAgo * 3_600_000);
  utimesSync(file, at, at);
};

it('removes what a killed process left of archives after a day, and no archive that is kept', async () => {
  mkdirSync(path.join(uploads, 'received', 'shop'), { recursive: true });
  const kept = receivedFile(uploads, 'shop', 'a'.repeat(64));
  const [old, fresh] = ['1', '2'].map((id) => arrivingFile(uploads, 'shop', id)) as [
    string,
    string,
  ];
  for (const file of [kept, old, fresh]) writeFileSync(file, 'bytes');
  const [abandoned, atWork] = [await leavingFolder(uploads), await leavingFolder(uploads)];
  writeFileSync(path.join(abandoned, '0'), 'bytes');
  for (const file of [kept, old, abandoned]) touched(file, 25);
  for (const file of [fresh, atWork]) touched(file, 23);
  expect(await sweepArchives(uploads, now)).toBe(2);
  expect([kept, old, fresh, abandoned, atWork].map(existsSync)).toEqual([
    true,
    false,
    true,
    false,
    true,
  ]);
});

it('finds nothing where nothing ever came or went', async () => {
  expect(await sweepArchives(path.join(uploads, 'nowhere'), now)).toBe(0);
});
