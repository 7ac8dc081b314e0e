// npm run --silent records: checks an archive of an aircraft's records without the server. Exit codes: 0 it holds,
// 1 it does not hold or cannot be read, 2 the command or its surroundings are wrong.
import fs from 'node:fs';
import { fileURLToPath } from 'node:url';
import { fingerprintOf, type Verdict, verifyArchive } from '../packages/proof/src/index.ts';
import { answer, argumentsOf, runLongCommand, tell, UsageError } from './command-line.ts';
import { whyNot } from './files.ts';
import { Refusal } from './progress.ts';

const usage = `npm run --silent records -- verify ARCHIVE.tar [--keys FINGERPRINT,…]

  verify     whether the archive is byte for byte what the shop sealed: nothing changed, missing, added, out of order or
             cut off, and every entry and decision signed. Prints JSON; sentences go to standard error.
  --keys     fingerprints that you have from elsewhere, such as from a printed entry. Any other key is then a fault.
             Without it the archive proves that nothing changed since its seal, but not whose seal that is.
  --help     this text`;

const plural = (count: number, one: string, many = `${one}s`) =>
  `${count} ${count === 1 ? one : many}`;

/** What an archive that holds proves. */
function proved({
  seal,
  entries,
  decisions,
  attachments,
  leftOut,
  keyChanges,
  ...more
}: Verdict): string[] {
  if (!seal) return [];
  return [
    `It is what was sealed on ${seal.madeAt}: ${plural(entries, 'signed entry', 'signed entries')}, ${plural(decisions, 'decision')}, ${plural(more.flightChecks, 'word')} on flights after work, ${plural(more.inoperative, 'word')} on inoperative equipment and ${plural(attachments, 'photo')} of ${seal.aircraft.registration}, serial ${seal.aircraft.serial}. No byte was changed, added, taken out or put in another order since.`,
    ...keyChanges.map(({ from, to, at, by, reason, lost }) =>
      lost
        ? `On ${at} the key ${fingerprintOf(to)} followed ${fingerprintOf(from)}, which was lost or trusted no more: ${reason} (${by}). The old key did not sign that: here the chain is broken as far as keys go, by what ${by} says.`
        : `On ${at} the key ${fingerprintOf(from)} handed over to ${fingerprintOf(to)}: both signed it. ${reason} (${by}).`,
    ),
    'Every entry and decision was signed with the key that it names, and names the one before it: none can have been slipped in, taken out or rewritten later without that key.',
    ...(leftOut > 0
      ? [
          `Of ${plural(leftOut, 'decision')} the digest alone is here: words and price were left out, as the shop chose. That each was made, and when it was linked, still holds.`,
        ]
      : []),
  ];
}

function unproved({ seal }: Verdict, compared: boolean): string[] {
  if (!seal) return [];
  return [
    ...(compared
      ? []
      : [
          `That the key was ${seal.shop.name}'s: anybody can make a key. Compare ${seal.key} with the fingerprint on a printed entry, or ask the shop, and run this again with --keys.`,
        ]),
    'That what was signed is true, that the aircraft is airworthy, or that work was entered at all which was not.',
    `That nothing was signed after ${seal.madeAt}: an older archive of the same aircraft holds as well.`,
    ...(seal.absent.length > 0
      ? [
          `What ${plural(seal.absent.length, 'photo')} showed: the shop had the file no more when it sealed.`,
        ]
      : []),
  ];
}

async function verify(args: readonly string[]): Promise<number> {
  const { files, values } = argumentsOf(args, ['ARCHIVE.tar'], ['--keys']);
  const trusted = values.get('--keys')?.split(',');
  const wrong = trusted?.find((key) => !/^[A-Za-z0-9_-]{43}$/.test(key));
  if (wrong !== undefined)
    throw new UsageError(
      `"${wrong.slice(0, 60)}" is not a fingerprint: that has 43 letters, digits, - and _.`,
    );
  const [file = ''] = files;
  const verdict = await verifyArchive(fs.createReadStream(file, { highWaterMark: 1 << 18 }), {
    ...(trusted && { trusted }),
  }).catch((error: NodeJS.ErrnoException) => {
    if (error.code) throw new Refusal(`Cannot read ${file}: ${whyNot(error)}.`);
    throw error;
  });
  const { holds, faults, seal } = verdict;
  const proves = holds ? proved(verdict) : [];
  const doesNotProve = holds ? unproved(verdict, trusted !== undefined) : [];
  answer({
    holds,
    aircraft: seal?.aircraft ?? null,
    shop: seal?.shop ?? null,
    sealedAt: seal?.madeAt ?? null,
    entries: verdict.entries,
    decisions: verdict.decisions,
    flightChecks: verdict.flightChecks,
    inoperative: verdict.inoperative,
    leftOut: verdict.leftOut,
    attachments: verdict.attachments,
    absent: seal?.absent ?? [],
    head: verdict.head,
    sealedWith: seal?.key ?? null,
    keys: verdict.keys,
    keyChanges: verdict.keyChanges.map(({ from, to, ...said }) => ({
      ...{ from: fingerprintOf(from), to: fingerprintOf(to) },
      ...said,
    })),
    received: verdict.received.map((inner) => ({
      name: inner.name,
      holds: inner.holds,
      shop: inner.seal?.shop ?? null,
      entries: inner.entries,
      sealedWith: inner.seal?.key ?? null,
    })),
    faults,
    proves,
    doesNotProve,
  });
  if (holds) {
    tell(`It holds.\n${proves.map((line) => `  ${line}`).join('\n')}`);
    tell(`It does not prove:\n${doesNotProve.map((line) => `  ${line}`).join('\n')}`);
    return 0;
  }
  tell(
    `It does not hold: this is not what the shop sealed.\n${faults.map(({ where, fault }) => `  ${where}: ${fault}`).join('\n')}`,
  );
  return 1;
}

/** @returns the exit code */
export async function records(args: readonly string[]): Promise<number> {
  if (args.includes('--help')) {
    process.stdout.write(`${usage}\n`);
    return 0;
  }
  const [command, ...rest] = args;
  return runLongCommand('records', usage, () => {
    if (command !== 'verify')
      throw new UsageError(
        command === undefined ? 'What is to be done?' : `"${command}" is not one of its commands.`,
      );
    return verify(rest);
  });
}

if (process.argv[1] === fileURLToPath(import.meta.url))
  process.exitCode = await records(process.argv.slice(2));
