import { execFile } from 'node:child_process';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { promisify } from 'node:util';
import type { Role } from '@fairlead/database';
import sharp from 'sharp';
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

/** What is asked of it as a file, in a folder of its own that is gone afterwards. */
async function asFile<T>(bytes: Buffer, work: (file: string) => Promise<T>): Promise<T> {
  const folder = await mkdtemp(path.join(os.tmpdir(), 'fairlead-paper-'));
  try {
    const file = path.join(folder, 'paper.pdf');
    await writeFile(file, bytes);
    return await work(file);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** What one of poppler's programs prints about it. */
const asked = (bytes: Buffer, program: string, options: string[], rest: string[] = []) =>
  asFile(
    bytes,
    async (file) => (await run(program, [...options, file, ...rest], { maxBuffer: 1e8 })).stdout,
  );

/** What is written on it, each run of space as one. */
export async function words(bytes: Buffer): Promise<string> {
  const stdout = await asked(bytes, 'pdftotext', ['-enc', 'UTF-8'], ['-']);
  return stdout.replace(/\s+/g, ' ');
}

/** What `pdfinfo` says of it. */
export function info(bytes: Buffer, ...options: string[]): Promise<string> {
  return asked(bytes, 'pdfinfo', options);
}

/** One page as a picture. */
export function picture(bytes: Buffer, { page = 1, dpi = 200 } = {}): Promise<Buffer> {
  return asFile(bytes, async (file) => {
    const to = path.join(path.dirname(file), 'page');
    await run('pdftoppm', [
      ...['-png', '-singlefile', '-r', `${dpi}`, '-f', `${page}`, '-l', `${page}`],
      ...[file, to],
    ]);
    return readFile(`${to}.png`);
  });
}

/** Every page's size in millimetres, from the file's own MediaBox entries. */
export function pageSizes(bytes: Buffer): [width: number, height: number][] {
  return [...bytes.toString('latin1').matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)].map(
    ([, width, height]) => [(Number(width) / 72) * 25.4, (Number(height) / 72) * 25.4],
  );
}

export interface Box {
  page: number;
  text: string;
  left: number;
  top: number;
  right: number;
  bottom: number;
}

const plainText = (text: string) =>
  text
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&amp;', '&');

/** Each word with its place, in points from the top left corner, as `pdftotext -bbox` finds it. */
export async function boxesOf(bytes: Buffer): Promise<Box[]> {
  const stdout = await asked(bytes, 'pdftotext', ['-bbox', '-enc', 'UTF-8'], ['-']);
  return stdout
    .split('<page ')
    .slice(1)
    .flatMap((page, index) =>
      [
        ...page.matchAll(
          /<word xMin="(\S+)" yMin="(\S+)" xMax="(\S+)" yMax="(\S+)">(.*?)<\/word>/g,
        ),
      ].map(([, left, top, right, bottom, text = '']) => ({
        page: index + 1,
        text: plainText(text),
        left: Number(left),
        top: Number(top),
        right: Number(right),
        bottom: Number(bottom),
      })),
    );
}

/** What is black of a word on a picture of its page: its height in pixels and its shape as a text. */
export async function inkOf(
  page: Buffer,
  { left, top, right, bottom }: Box,
  dpi: number,
): Promise<string> {
  const at = (points: number) => Math.round((points / 72) * dpi);
  const area = { left: at(left), top: at(top), width: at(right - left), height: at(bottom - top) };
  const { data, info } = await sharp(page)
    .extract(area)
    .greyscale()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const rows: string[] = [];
  for (let y = 0; y < info.height; y += 1) {
    let row = '';
    for (let x = 0; x < info.width; x += 1)
      row += (data[y * info.width + x] ?? 255) < 128 ? '#' : '.';
    if (row.includes('#')) rows.push(row);
  }
  return `${rows.length} ${rows.join('/')}`;
}
