import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { open, rm, stat, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { pipeline } from 'node:stream/promises';
import {
  ATTACHMENTS,
  KEYS,
  NOTHING_BEFORE,
  type PublicKey,
  photosOf,
  RECEIVED,
  RECORDS,
  SEAL,
  type Seal,
  type SealedFile,
  type SigningKey,
  sha256,
  writeSeal,
} from '@fairlead/proof';
import { type Pack, pack } from 'tar-stream';
import { civilDay } from '../../civil-day.ts';
import { allow, type Context } from '../../context.ts';
import { notFound } from '../../errors.ts';
import { sayDay } from '../../given.ts';
import { keyRow, linkRecords } from '../../record-chain.ts';
import { shopKey } from '../../shop-key.ts';
import { photoFile } from '../../work/index.ts';
import { leavingFolder, receivedFile } from './archive-files.ts';
import { correctionsOf, linksOf } from './links.ts';
import { drawLinks, LINKS_A_PAPER } from './paper.ts';
import { readme } from './words.ts';

interface Kept extends SealedFile {
  /** Where its bytes lie until they are packed. */
  file: string;
}

export interface ReadyArchive {
  filename: string;
  /** Packs file after file; holds one piece of one at a time. */
  stream(): Pack;
  /** Removes what was laid out for it. */
  clear(): Promise<void>;
}

/**
 * Lays out an aircraft's records for one archive. What was signed before there was a chain is linked first.
 *
 * @param withDecisions false leaves out what owners decided and for how much: their digests stay in the chain
 */
export async function prepareArchive(
  context: Context,
  { aircraftId, withDecisions }: { aircraftId: string; withDecisions: boolean },
): Promise<ReadyArchive> {
  const { shopId } = await allow(context, 'front_desk', 'inspector', 'manager');
  const key = await shopKey(context.uploadsDir, shopId);
  const at = context.now();
  await context.write(async (tx) => {
    if (!(await tx.aircraft.findUnique({ where: { id: aircraftId }, select: { id: true } })))
      throw notFound('aircraft');
    await linkRecords(tx, key, aircraftId, at);
    await keyRow(tx, key);
  });
  const about = await readAbout(context, aircraftId, at);
  const folder = await leavingFolder(context.uploadsDir);
  const clear = () => rm(folder, { recursive: true, force: true });
  try {
    const { upTo, timeZone, photos, received, changes, ...seal } = about;
    const files: Kept[] = [];
    const keep = async (name: string, bytes: string | Buffer) => {
      const file = path.join(folder, String(files.length));
      await writeFile(file, bytes);
      const size = Buffer.byteLength(bytes);
      files.push({ name, size, sha256: sha256(bytes), file });
    };
    await keep('README.txt', readme(seal, key.fingerprint));
    if (changes.length > 0) await keep(KEYS, changes.map(({ line }) => `${line}\n`).join(''));

    const corrections = await correctionsOf(context.read, aircraftId, upTo);
    const who = { ...seal, timeZone, at, fingerprint: key.fingerprint, corrections };
    const named = new Set<string>(photos);
    let head = NOTHING_BEFORE;
    let waiting: Parameters<typeof drawLinks>[0][number][] = [];
    const print = async () => {
      const [from, to] = [waiting[0], waiting.at(-1)].map((one) =>
        String(one?.link.statement.seq ?? 0).padStart(4, '0'),
      );
      await keep(`entries-${from}-${to}.pdf`, await drawLinks(waiting, who));
      waiting = [];
    };
    const lines = path.join(folder, RECORDS);
    const digest = createHash('sha256');
    const out = await open(lines, 'wx');
    try {
      for await (const { link, line, hash } of linksOf(
        context.read,
        aircraftId,
        upTo,
        withDecisions,
      )) {
        const bytes = `${line}\n`;
        digest.update(bytes);
        await out.write(bytes);
        for (const photo of photosOf(link.content)) named.add(photo);
        head = hash;
        waiting.push({ link, hash });
        if (waiting.length === LINKS_A_PAPER) await print();
      }
    } finally {
      await out.close();
      await context.close();
    }
    if (waiting.length > 0) await print();
    const { size } = await stat(lines);
    files.push({ name: RECORDS, size, sha256: digest.digest('hex'), file: lines });

    const absent: string[] = [];
    for (const photo of [...named].sort()) {
      const file = path.join(context.uploadsDir, photoFile(shopId, photo, 'original'));
      const there = await digestOf(file);
      // A file that rotted on the disk is as good as gone: what it showed, nobody can prove any more.
      if (there?.sha256 === photo)
        files.push({ name: `${ATTACHMENTS}${photo}.jpg`, file, ...there });
      else absent.push(photo);
    }
    for (const archive of received) {
      const file = receivedFile(context.uploadsDir, shopId, archive);
      const there = await digestOf(file);
      if (there?.sha256 === archive)
        files.push({ name: `${RECEIVED}${archive}.tar`, file, ...there });
      else absent.push(archive);
    }
    const sealed = { ...seal, links: upTo, head, absent };
    return {
      filename: `records-${seal.aircraft.registration}-${sayDay(civilDay(at, timeZone))}`,
      stream: () => packFiles(files, sealed, key),
      clear,
    };
  } catch (error) {
    await clear();
    throw error;
  }
}

/** Everything of the seal but the files, and what the archive is laid out from. */
async function readAbout({ read }: Context, aircraftId: string, at: Date) {
  const aircraft = await read.aircraft.findUniqueOrThrow({
    where: { id: aircraftId },
    select: {
      id: true,
      registration: true,
      serial: true,
      model: { select: { maker: true, name: true } },
      links: { orderBy: { seq: 'desc' }, take: 1, select: { seq: true } },
      received: { orderBy: { receivedAt: 'asc' }, select: { sha256: true } },
    },
  });
  const shop = await read.shop.findFirstOrThrow({
    select: { name: true, place: true, timeZone: true, keys: { orderBy: { madeAt: 'asc' } } },
  });
  const changes = await read.shopKeyChange.findMany({
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
    select: { line: true },
  });
  const photos = await read.photo.findMany({
    where: { findings: { some: { finding: { order: { aircraftId } } } } },
    orderBy: { sha256: 'asc' },
    select: { sha256: true },
  });
  const { id, registration, serial, model, links, received } = aircraft;
  return {
    madeAt: at.toISOString(),
    shop: { name: shop.name, place: shop.place },
    aircraft: { id, registration, serial, maker: model.maker, model: model.name },
    keys: shop.keys.map(({ publicKey: x }): PublicKey => ({ crv: 'Ed25519', kty: 'OKP', x })),
    upTo: links[0]?.seq ?? 0,
    timeZone: shop.timeZone,
    photos: photos.map((photo) => photo.sha256.trim()),
    changes,
    received: received.map((archive) => archive.sha256),
  };
}

/** Size and digest of a file; null where there is none. */
async function digestOf(file: string): Promise<{ size: number; sha256: string } | null> {
  const digest = createHash('sha256');
  let size = 0;
  try {
    for await (const piece of createReadStream(file)) {
      digest.update(piece as Buffer);
      size += (piece as Buffer).length;
    }
    return { size, sha256: digest.digest('hex') };
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw error;
  }
}

function packFiles(
  files: readonly Kept[],
  seal: Omit<Seal, 'files' | 'key' | 'version'>,
  key: SigningKey,
): Pack {
  const archive = pack();
  const mtime = new Date(Math.floor(Date.parse(seal.madeAt) / 1000) * 1000);
  const all = async () => {
    for (const { name, size, file } of files)
      await pipeline(createReadStream(file), archive.entry({ name, size, mtime }));
    const listed = files.map(({ name, size, sha256: digest }) => ({ name, size, sha256: digest }));
    archive.entry({ name: SEAL, mtime }, writeSeal(key, { ...seal, files: listed }));
    archive.finalize();
  };
  all().catch((error: unknown) => archive.destroy(error as Error));
  return archive;
}
