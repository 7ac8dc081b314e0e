import { createHash, randomUUID } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { mkdir, open, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import { canonical, type Verdict, verifyArchive } from '@fairlead/proof';
import { allow, type Context } from '../../context.ts';
import { notFound, Refused } from '../../errors.ts';
import { holdFor } from '../../hold.ts';
import { arrivingFile, receivedFile } from './archive-files.ts';

/** 20 years of photos fit in; a disk should not be filled by one request. */
const MOST_BYTES = 4_000_000_000;
const MOST_LINE_BYTES = 200_000_000;

export interface ReceivedInput {
  aircraftId: string;
  /** Fingerprints known from elsewhere, such as from a printed entry; empty: nobody compared. */
  keys: readonly string[];
  body: AsyncIterable<Uint8Array>;
}

/**
 * Takes in the records that came with an aircraft from another shop. They are verified whole before anything is kept,
 * and kept as they came: the file, and each signed line.
 *
 * @returns the id of what was received; the same archive again is the one that is there
 */
export async function receiveArchive(context: Context, input: ReceivedInput): Promise<string> {
  const { shopId, personId } = await allow(context, 'inspector', 'manager');
  const { aircraftId, keys } = input;
  const wrong = keys.find((key) => !/^[A-Za-z0-9_-]{43}$/.test(key));
  if (wrong !== undefined)
    throw new Refused(
      'BAD_INPUT',
      `“${wrong.slice(0, 60)}” is no fingerprint: that has 43 letters, digits, - and _, as it is printed on an entry.`,
      'keys',
    );
  const aircraft = await context.read.aircraft.findUnique({
    where: { id: aircraftId },
    select: { registration: true, serial: true },
  });
  if (!aircraft) throw notFound('aircraft');
  await context.close();

  const beside = arrivingFile(context.uploadsDir, shopId, randomUUID());
  try {
    const { sha256, bytes } = await keepBody(beside, input.body);
    const lines: string[] = [];
    let held = 0;
    const verdict = await verifyArchive(createReadStream(beside, { highWaterMark: 1 << 18 }), {
      ...(keys.length > 0 && { trusted: keys }),
      onLink: (_, line) => {
        held += line.length;
        if (held <= MOST_LINE_BYTES) lines.push(line);
      },
    });
    if (held > MOST_LINE_BYTES)
      throw new Refused(
        'TOO_LARGE',
        `Its entries are more than ${MOST_LINE_BYTES / 1e6} MB of text.`,
      );
    const seal = sealOf(verdict, aircraft, aircraftId);
    await rename(beside, receivedFile(context.uploadsDir, shopId, sha256));
    return await context.write(async (tx) => {
      await holdFor(tx, 'received archive', sha256);
      const there = await tx.receivedArchive.findFirst({
        where: { aircraftId, sha256 },
        select: { id: true },
      });
      if (there) return there.id;
      const { id } = await tx.receivedArchive.create({
        data: {
          aircraftId,
          sha256,
          bytes,
          seal: canonical(seal),
          comparedKeys: [...keys],
          linkCount: verdict.links,
          receivedAt: context.now(),
          receivedById: personId,
        },
        select: { id: true },
      });
      for (let from = 0; from < lines.length; from += 500)
        await tx.receivedLink.createMany({
          data: lines
            .slice(from, from + 500)
            .map((line, index) => ({ archiveId: id, seq: from + index + 1, line })),
        });
      return id;
    });
  } finally {
    await rm(beside, { force: true });
  }
}

async function keepBody(file: string, body: AsyncIterable<Uint8Array>) {
  await mkdir(path.dirname(file), { recursive: true, mode: 0o750 });
  const digest = createHash('sha256');
  let bytes = 0;
  const out = await open(file, 'wx', 0o640);
  try {
    for await (const piece of body) {
      bytes += piece.length;
      if (bytes > MOST_BYTES)
        throw new Refused('TOO_LARGE', `The archive has more than ${MOST_BYTES / 1e9} GB.`);
      digest.update(piece);
      await out.write(piece);
    }
    await out.sync();
  } finally {
    await out.close();
  }
  return { sha256: digest.digest('hex'), bytes };
}

function sealOf(
  { holds, faults, seal }: Verdict,
  { registration, serial }: { registration: string; serial: string },
  aircraftId: string,
) {
  const [first, ...more] = faults;
  if (!holds || !seal)
    throw new Refused(
      'AGAINST_RULE',
      `Nothing was kept: the archive does not hold. ${first ? `${first.where}: ${first.fault}` : 'It has no seal'}${more.length > 0 ? `; ${more.length} more` : ''}. Ask for it again.`,
    );
  if (seal.aircraft.id === aircraftId)
    throw new Refused(
      'CONFLICT',
      `These are this shop's own records of ${registration}: they are here already.`,
    );
  if (seal.aircraft.serial !== serial)
    throw new Refused(
      'BAD_INPUT',
      `Nothing was kept: the archive is of ${seal.aircraft.registration}, serial ${seal.aircraft.serial}; ${registration} has serial ${serial}.`,
    );
  return seal;
}
