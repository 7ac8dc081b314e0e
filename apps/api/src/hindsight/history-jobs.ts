import { type Client, inShop, type Scope, type Tx } from '@fairlead/database';
import type { JobPayload, JobTask } from '@fairlead/database/jobs';
import { writeRefused } from '@fairlead/labour';
import { civilDay } from '../civil-day.ts';
import { Refused } from '../errors.ts';
import { newId } from '../new-id.ts';
import { type HistoryJob, MOST_ATTEMPTS } from './ask-job.ts';
import { knownRows } from './history-rows.ts';
import { importHistory } from './import-history.ts';
import { readHistoryFile } from './read-history-file.ts';

/** Refusals that are kept singly; the rest are in the file of refused rows. */
const KEPT_REFUSALS = 200;
/** 64 MB of rows on a slow disk; nobody waits for this transaction but another import. */
const LONGEST_MS = 900_000;

/** The file is no longer on the desk: what was begun is taken back, and there is nothing to tell. */
class PutAway extends Error {}

interface AtHand {
  scope: Scope & { personId: string };
  uploadId: string;
  /** One transaction of the shop, in the name of who asked. */
  inside<T>(work: (tx: Tx) => Promise<T>, timeoutMs?: number): Promise<T>;
}

/** Changes the file on the desk while it lies there and is not taken in. */
async function note(
  tx: Tx,
  id: string,
  data: Parameters<Tx['historyUpload']['updateMany']>[0]['data'],
): Promise<void> {
  const { count } = await tx.historyUpload.updateMany({ where: { id, takenAt: null }, data });
  if (count === 0) throw new PutAway();
}

/** The file with its content, or PutAway. */
async function onDesk(tx: Tx, id: string) {
  const upload = await tx.historyUpload.findUnique({ where: { id }, omit: { refusedCsv: true } });
  if (!upload?.content || upload.takenAt) throw new PutAway();
  return { ...upload, file: { name: upload.fileName, bytes: upload.content } };
}

/** Reads the file through: what is good, what is there already, what is refused. */
async function readUpload({ uploadId, inside }: AtHand): Promise<void> {
  const { file, timeZone } = await inside(
    async (tx) => ({
      ...(await onDesk(tx, uploadId)),
      ...(await tx.shop.findFirstOrThrow({ select: { timeZone: true } })),
    }),
    LONGEST_MS,
  );
  const readOn = civilDay(new Date(), timeZone);
  const read = readHistoryFile(file, readOn.toISOString().slice(0, 10));
  const [first] = read.refused;
  // Refusals without a refused row are about the header or the file: no row can be told from another.
  const whole = read.refusedRows.length === 0 && first !== undefined;
  const bare = read.rows.length === 0 && first === undefined;
  await inside(async (tx) => {
    const { known } = await knownRows(tx, read.rows);
    await note(tx, uploadId, {
      readOn,
      goodRows: read.rows.length,
      alreadyRows: known.size,
      refusedRows: read.refusedRows.length,
      refusals: read.refused.length,
      firstRefusals: read.refused
        .slice(0, KEPT_REFUSALS)
        .map((each) => ({ ...each, value: each.value.slice(0, 200) })),
      refusedCsv: read.refusedRows.length > 0 ? writeRefused(read) : '',
      problem: whole
        ? `${file.name} cannot be read as a history of jobs.`
        : bare
          ? `${file.name} has a header and no row under it: there is nothing to import.`
          : '',
    });
  }, LONGEST_MS);
}

/** Takes in the good rows, in one transaction; how far it is, is told through others. */
async function takeIn({ uploadId, scope, inside }: AtHand): Promise<void> {
  const { file, readOn } = await inside((tx) => onDesk(tx, uploadId), LONGEST_MS);
  if (!readOn) throw new PutAway();
  await importHistory((work) => inside(work, LONGEST_MS), {
    file,
    today: readOn.toISOString().slice(0, 10),
    skipBad: true,
    byId: scope.personId,
    onSaved: (savedRows) => inside((tx) => note(tx, uploadId, { savedRows, movedAt: new Date() })),
    finish: (tx, { added, already }) =>
      note(tx, uploadId, {
        takenAt: new Date(),
        addedRows: added,
        alreadyRows: already,
        savedRows: added,
        content: null,
      }),
  });
}

/** The jobs on the file on the desk. What goes wrong for good is said there, and nothing is imported. */
export function historyJobs(client: Client): Record<HistoryJob, JobTask> {
  const job =
    (work: (at: AtHand) => Promise<void>): JobTask =>
    async (payload: JobPayload, attempt) => {
      const uploadId = String(payload['uploadId']);
      const scope = {
        shopId: payload.shopId,
        personId: String(payload['personId']),
        requestId: newId(),
      };
      const inside: AtHand['inside'] = (within, timeoutMs) =>
        inShop(client, scope, within, timeoutMs === undefined ? {} : { timeoutMs });
      const say = (problem: string) => inside((tx) => note(tx, uploadId, { problem }));
      try {
        await work({ uploadId, scope, inside });
      } catch (error) {
        if (error instanceof PutAway) return;
        if (error instanceof Refused) return say(error.message);
        if (attempt >= MOST_ATTEMPTS)
          await say(
            'Something went wrong on our side, three times. Nothing was imported; put the file away and try again.',
          ).catch(() => undefined);
        throw error;
      }
    };
  return { read_history: job(readUpload), take_in_history: job(takeIn) };
}
