import { execFile } from 'node:child_process';
import { mkdtemp, readFile, writeFile } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { promisify } from 'node:util';
import type { Role } from '@fairlead/database';
import type { TestApi } from '../../support/api.ts';
import type { TestShop } from '../../support/shop.ts';

const run = promisify(execFile);

/** Whether poppler-utils reads what is printed. Where CI is set it has to; elsewhere a test that needs it says that it was left out. */
export const poppler = await run('pdftotext', ['-v']).then(
  () => true,
  () => false,
);
if (!poppler && process.env['CI'] === 'true')
  throw new Error('pdftotext is missing: install poppler-utils, the papers are read with it.');

export interface Printed {
  status: number;
  headers: Headers;
  bytes: Buffer;
  error?: { code: string; message: string };
}

/** Asks for a paper as the browser does. */
export async function print(
  api: TestApi,
  shop: TestShop,
  address: string,
  role: Role | null = 'front_desk',
): Promise<Printed> {
  const response = await fetch(`${api.origin}/paper/${address}`, {
    headers: role ? { cookie: await shop.cookie(role) } : {},
  });
  const bytes = Buffer.from(await response.arrayBuffer());
  const { status, headers } = response;
  if (status === 200) return { status, headers, bytes };
  return { status, headers, bytes, ...(JSON.parse(bytes.toString()) as Pick<Printed, 'error'>) };
}

async function fileOf(bytes: Buffer): Promise<string> {
  const file = path.join(await mkdtemp(path.join(os.tmpdir(), 'fairlead-paper-')), 'paper.pdf');
  await writeFile(file, bytes);
  return file;
}

/** What is written on it, each run of space as one. */
export async function words(bytes: Buffer): Promise<string> {
  const { stdout } = await run('pdftotext', ['-enc', 'UTF-8', await fileOf(bytes), '-'], {
    maxBuffer: 1e8,
  });
  return stdout.replace(/\s+/g, ' ');
}

/** What `pdfinfo` says of it. */
export async function info(bytes: Buffer, ...options: string[]): Promise<string> {
  return (await run('pdfinfo', [...options, await fileOf(bytes)], { maxBuffer: 1e8 })).stdout;
}

/** One page as a picture. */
export async function picture(bytes: Buffer, { page = 1, dpi = 200 } = {}): Promise<Buffer> {
  const file = await fileOf(bytes);
  const to = path.join(path.dirname(file), 'page');
  await run('pdftoppm', [
    ...['-png', '-singlefile', '-r', `${dpi}`, '-f', `${page}`, '-l', `${page}`],
    ...[file, to],
  ]);
  return readFile(`${to}.png`);
}

/** Every page's size in millimetres, from the file's own MediaBox entries. */
export function pageSizes(bytes: Buffer): [width: number, height: number][] {
  return [...bytes.toString('latin1').matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)].map(
    ([, width, height]) => [(Number(width) / 72) * 25.4, (Number(height) / 72) * 25.4],
  );
}
