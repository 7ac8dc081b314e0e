import { createHash } from 'node:crypto';
import { type Fault, readChain } from './chain.ts';
import { KEYS, type KeyChange, keyChangeFaults, readKeyChange } from './key-change.ts';
import { fingerprintOf } from './keys.ts';
import type { Link } from './link.ts';
import {
  ATTACHMENTS,
  RECEIVED,
  RECORDS,
  readSeal,
  SEAL,
  type Seal,
  type SealedFile,
} from './seal.ts';
import { NotAnArchive, readTar } from './tar.ts';

export interface Verdict {
  readonly holds: boolean;
  readonly faults: readonly Fault[];
  /** Null where no seal could be read. */
  readonly seal: Seal | null;
  readonly links: number;
  readonly entries: number;
  readonly decisions: number;
  /** What was said of flights after work, and of equipment that stays inoperative. */
  readonly flightChecks: number;
  readonly inoperative: number;
  /** Links whose content was left out when the archive was made. */
  readonly leftOut: number;
  readonly attachments: number;
  readonly head: string;
  /** Each key by its fingerprint, with how many links it signed. */
  readonly keys: Readonly<Record<string, number>>;
  /** How one key took over from another, in order; a key that was lost is a break, and no fault. */
  readonly keyChanges: readonly KeyChange[];
  /** Verdicts on archives that were received with the aircraft and travel inside of this one. */
  readonly received: readonly (Verdict & { readonly name: string })[];
}

export interface VerifyOptions {
  /** Fingerprints that are known from elsewhere, such as from a printed entry; any other key is a fault. */
  readonly trusted?: readonly string[];
  /** Hears each link that holds by itself, in order; the whole counts only if the verdict says so. */
  readonly onLink?: (link: Link, line: string) => Promise<void> | void;
  /** How deep received archives may lie within each other. */
  readonly depth?: number;
}

const MOST_FAULTS = 50;
const MOST_LINE = 4_000_000;
const MOST_SEAL = 64_000_000;

/**
 * Verifies an archive of records: every byte of it is a header that follows from its file, a file whose digest is sealed,
 * a link whose hash and signature hold, or the seal itself. It reads once, in order, and holds one link at a time.
 *
 * What it cannot say: whose the keys are, and whether the shop had written something else before.
 *
 * @returns what was found, with every fault; never throws for what the archive holds
 */
export async function verifyArchive(
  source: AsyncIterable<Uint8Array>,
  { trusted, onLink, depth = 3 }: VerifyOptions = {},
): Promise<Verdict> {
  const faults: Fault[] = [];
  const fault = (where: string, what: string) => {
    if (faults.length < MOST_FAULTS) faults.push({ where, fault: what });
  };
  const seen: SealedFile[] = [];
  const chain = readChain(fault);
  const keyChanges: KeyChange[] = [];
  const received: (Verdict & { name: string })[] = [];
  let seal: Seal | null = null;
  let mtime: number | null = null;

  const takeLine = async (line: string) => {
    const link = chain.take(line);
    if (link) await onLink?.(link, line);
  };

  const takeKeyChange = async (line: string) => {
    const change = readKeyChange(line);
    if (typeof change === 'string') fault(KEYS, change);
    else keyChanges.push(change);
  };

  try {
    for await (const member of readTar(source)) {
      const { name, size } = member;
      if (seal) fault(name, 'it stands after the seal');
      if (mtime !== null && member.mtime !== mtime) fault(name, 'its time differs from the others');
      mtime ??= member.mtime;
      if (name === SEAL) {
        if (size > MOST_SEAL) throw new NotAnArchive('its seal is too large to be one');
        const chunks: Uint8Array[] = [];
        for await (const piece of member.bytes) chunks.push(Buffer.from(piece));
        const answer = readSeal(Buffer.concat(chunks).toString('utf8'));
        if (typeof answer === 'string') fault(SEAL, answer);
        else seal = answer;
        continue;
      }
      const digest = createHash('sha256');
      const hashed = through(member.bytes, (piece) => digest.update(piece));
      if (name === RECORDS) await eachLine(hashed, takeLine);
      else if (name === KEYS) await eachLine(hashed, takeKeyChange);
      else if (name.startsWith(RECEIVED) && depth > 0) {
        const verdict = await verifyArchive(leftOpen(hashed), { depth: depth - 1 });
        received.push({ ...verdict, name });
        if (!verdict.holds)
          fault(
            name,
            `the archive inside does not hold: ${verdict.faults[0]?.fault ?? 'it cannot be read'}`,
          );
        // Whatever a broken one left unread still counts for the digest.
        await drained(hashed);
      } else await drained(hashed);
      seen.push({ name, size, sha256: digest.digest('hex') });
    }
  } catch (error) {
    if (!(error instanceof NotAnArchive)) throw error;
    fault('the archive', error.message);
  }

  const { tally } = chain;
  let signed: Record<string, number> = {};
  if (!seal) fault(SEAL, 'the seal at the end is missing: the archive is cut off or was never one');
  else {
    checkFiles(seal, seen, fault);
    if (seal.links !== tally.links)
      fault(RECORDS, `it has ${tally.links} links; the seal counts ${seal.links}`);
    if (seal.head !== tally.head) fault(RECORDS, 'it does not end at the link that the seal names');
    if (tally.chain !== null && tally.chain !== seal.aircraft.id)
      fault(RECORDS, 'its chain is of another aircraft than the seal');
    if (mtime !== null && mtime !== Math.floor(Date.parse(seal.madeAt) / 1000))
      fault('the archive', 'the time in its headers is not when it was sealed');
    const there = new Set(seen.map(({ name }) => name));
    for (const [photo, seq] of tally.photos)
      if (!there.has(`${ATTACHMENTS}${photo}.jpg`) && !seal.absent.includes(photo))
        fault(`link ${seq}`, `its photo ${photo.slice(0, 12)}… is missing`);
    signed = chain.checkSignatures(seal.keys);
    for (const contradiction of keyChangeFaults(keyChanges, tally.keyRuns))
      fault(KEYS, contradiction);
    const known = trusted && vouchedFor(trusted, keyChanges);
    for (const print of known ? seal.keys.map(fingerprintOf) : [])
      if (!known?.has(print)) fault(SEAL, `the key ${print} is not one of those you named`);
  }
  return {
    holds: faults.length === 0,
    faults,
    seal,
    links: tally.links,
    entries: tally.entry,
    decisions: tally.decision,
    flightChecks: tally.flight_check,
    inoperative: tally.inoperative,
    keyChanges,
    leftOut: tally.leftOut,
    attachments: seen.filter(({ name }) => name.startsWith(ATTACHMENTS)).length,
    head: tally.head,
    keys: signed,
    received,
  };
}

/**
 * Keys that are known from elsewhere, and those that they vouch for: a new key for the one that it replaces, an old one for
 * the one that it handed over to. What followed a lost key is vouched for by nothing of the old.
 */
function vouchedFor(trusted: readonly string[], changes: readonly KeyChange[]): Set<string> {
  const known = new Set(trusted);
  for (let grown = -1; grown !== known.size; ) {
    grown = known.size;
    for (const { from, to, lost } of changes) {
      const [old, next] = [fingerprintOf(from), fingerprintOf(to)];
      if (known.has(next)) known.add(old);
      if (!lost && known.has(old)) known.add(next);
    }
  }
  return known;
}

function checkFiles(
  seal: Seal,
  seen: readonly SealedFile[],
  fault: (where: string, what: string) => void,
) {
  const sealed = new Map(seal.files.map((file) => [file.name, file]));
  for (const { name, sha256: digest, size } of seen) {
    const file = sealed.get(name);
    if (!file) fault(name, 'it is not among the files that were sealed');
    else if (name.startsWith(ATTACHMENTS) && name !== `${ATTACHMENTS}${digest}.jpg`)
      fault(name, 'it is not the photo that its name says');
    else if (file.sha256 !== digest || file.size !== size) fault(name, 'its bytes were changed');
  }
  const there = new Set(seen.map(({ name }) => name));
  for (const { name } of seal.files) if (!there.has(name)) fault(name, 'it is missing');
  if (seen.length > there.size) fault('the archive', 'a file stands in it twice');
  if (seal.files.some(({ name }, index) => seen[index]?.name !== name))
    fault('the archive', 'its files are not in the order in which they were sealed');
}

/** Reads to the end what only its digest is wanted of. */
async function drained(source: AsyncGenerator<Uint8Array>): Promise<void> {
  while (!(await source.next()).done);
}

/** The same pieces; whoever stops reading early does not close them for whoever reads on. */
const leftOpen = (source: AsyncGenerator<Uint8Array>): AsyncIterable<Uint8Array> => ({
  [Symbol.asyncIterator]: () => ({ next: () => source.next() }),
});

async function* through(source: AsyncIterable<Uint8Array>, hear: (piece: Uint8Array) => void) {
  for await (const piece of source) {
    hear(piece);
    yield piece;
  }
}

/** Lines that each end in a line feed, the last one too. */
async function eachLine(
  source: AsyncIterable<Uint8Array>,
  take: (line: string) => Promise<unknown>,
) {
  let rest = Buffer.alloc(0);
  for await (const piece of source) {
    let held = Buffer.concat([rest, piece]);
    for (let end = held.indexOf(10); end >= 0; end = held.indexOf(10)) {
      await take(held.toString('utf8', 0, end));
      held = held.subarray(end + 1);
    }
    if (held.length > MOST_LINE)
      throw new NotAnArchive(`a line of ${RECORDS} is longer than ${MOST_LINE} bytes`);
    rest = Buffer.from(held);
  }
  if (rest.length > 0) await take(rest.toString('utf8'));
}
