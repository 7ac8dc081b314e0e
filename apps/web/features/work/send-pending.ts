import { RequestProblem, request, requestFor } from '../../graphql/request.ts';
import { isFresh, offsetAtSending } from '../../lib/clock-offset.ts';
import { deviceId } from '../../lib/device-id.ts';
import { shopClock } from '../../lib/shop-clock.ts';
import {
  AddFindingPhotoDocument,
  AnyoneDocument,
  ClockManyDocument,
  NoteFindingDocument,
  ReadCautionsDocument,
} from './bench-documents.ts';
import { clocksAsSent } from './clocks-as-sent.ts';
import type { Outcome } from './outbox-core.ts';
import type { MarkedPhoto, Pending, PendingClock, PendingPhoto } from './pending.ts';
import { isClock } from './pending-list.ts';
import { sendPiece } from './send-photo.ts';
import { sendPreview } from './send-preview.ts';

type Answer = { result: { __typename: string; code?: string; message?: string } };

/**
 * Sends some things: several clock events, or one of anything else; of a photo its preview, then the next piece.
 *
 * @throws RequestProblem where the server took none and asking again may help, or somebody has to sign in first
 */
export async function sendPending(entries: readonly Pending[]): Promise<Outcome[]> {
  await hearTheTime();
  const clocks = entries.filter(isClock);
  if (clocks.length > 0) return sendClocks(clocks);
  const [entry] = entries;
  if (entry === undefined || entry.kind === 'clock') return [];
  try {
    return [entry.kind === 'photo' ? await sendPhoto(entry) : outcomeOf(await answerTo(entry))];
  } catch (problem) {
    return [refusalIn(entry, problem)];
  }
}

/** What was noted just before is dated by how the device's clock stands now: somebody may have set it since the last answer. */
async function hearTheTime(): Promise<void> {
  if (isFresh(shopClock.known(), Date.now())) return;
  await request(AnyoneDocument);
}

/** How the device's clock stands, for something noted before. */
const device = ({ madeAt: at, clock }: Pending) => ({
  id: deviceId(),
  clockOffsetMs: offsetAtSending(
    { at, offsetMs: clock?.offsetMs ?? 0, heard: clock?.heard ?? 0 },
    { shop: shopClock.now(), offsetMs: shopClock.known().offsetMs },
  ),
});

async function sendClocks(entries: readonly PendingClock[]): Promise<Outcome[]> {
  const [first] = entries;
  if (first === undefined) return [];
  const events = clocksAsSent(entries, device);
  try {
    const { result } = await requestFor(first.personId, ClockManyDocument, { input: { events } });
    if (result.__typename === 'Refusal') return entries.map(() => outcomeOf({ result }));
    const { answers, remarks } = result;
    return entries.map(({ id }) => {
      const refusal = answers.find(({ clientEventId }) => clientEventId === id)?.refusal ?? null;
      const told = remarks
        .filter(({ clientEventId }) => clientEventId === id)
        .map(({ words }) => words)
        .join(' ');
      return refusal !== null ? { refused: refusal } : told === '' ? {} : { told };
    });
  } catch (problem) {
    return entries.map((entry) => refusalIn(entry, problem));
  }
}

/** @throws RequestProblem where it says that nobody is signed in, or that the shop cannot answer just now */
function outcomeOf({ result: { __typename, code = '', message } }: Answer): Outcome {
  if (__typename !== 'Refusal') return {};
  const sentence = message ?? 'The server said no.';
  if (code === 'SIGN_IN_NEEDED') throw new RequestProblem('signIn', code, sentence);
  if (code === 'UNAVAILABLE') throw new RequestProblem('away', code, sentence);
  return { refused: sentence };
}

/** How often each thing met a fault of the server's. */
const faults = new Map<string, number>();
const MOST_FAULTS = 3;

/**
 * A no of the server as an outcome. An answer that is not the shop's, such as the sign-in page of a network, is none; a
 * fault of the server's own is asked about again, but not for ever, because others wait behind it.
 */
function refusalIn({ id }: Pending, problem: unknown): Outcome {
  if (!(problem instanceof RequestProblem) || problem.kind !== 'refused') throw problem;
  const { code, message } = problem;
  const met = (faults.get(id) ?? 0) + 1;
  faults.set(id, met);
  if (code.startsWith('HTTP_') || (code === 'INTERNAL' && met < MOST_FAULTS))
    throw new RequestProblem('away', code, message);
  return { refused: message };
}

async function sendPhoto(entry: PendingPhoto): Promise<Outcome> {
  const { finding: clientEventId, before } = entry;
  const join = async (photoId: string): Promise<Outcome> => {
    const input = { clientEventId, photoId, ...(before !== undefined && { beforeId: before }) };
    const joined = outcomeOf(await requestFor(entry.personId, AddFindingPhotoDocument, { input }));
    if (joined.refused !== undefined || entry.marked === undefined) return joined;
    return sendMarks(entry, entry.marked, photoId);
  };
  if (entry.preview === undefined) return { preview: await sendPreview(entry, join) };
  const { sent, photoId } = await sendPiece({ id: entry.id, photo: entry.photo });
  return photoId === null ? { sent } : join(photoId);
}

/** What was drawn over a photo while it waited. The photo is through also where the shop does not take the marks, which says so. */
async function sendMarks(
  entry: PendingPhoto,
  { id: clientEventId, madeAt, clock, marks }: MarkedPhoto,
  photoId: string,
): Promise<Outcome> {
  const { clockOffsetMs } = device({ ...entry, madeAt, clock });
  const at = new Date(madeAt + clockOffsetMs).toISOString();
  const { sayFact } = await import('../safety/facts.ts');
  const result = await sayFact(
    { does: 'mark', input: { photoId, marks } },
    { at, clientEventId },
    (document, variables) => requestFor(entry.personId, document, variables),
  );
  const { refused } = outcomeOf({ result });
  return refused === undefined
    ? {}
    : { told: `The photo is through, its marks are not: ${refused}` };
}

async function answerTo(entry: Exclude<Pending, PendingPhoto | PendingClock>): Promise<Answer> {
  const { id, personId, madeAt } = entry;
  const noted = {
    at: new Date(madeAt).toISOString(),
    clientEventId: id,
    device: device(entry),
  };
  switch (entry.kind) {
    case 'cautions':
      return requestFor(personId, ReadCautionsDocument, { input: { itemId: entry.itemId, noted } });
    case 'finding':
      return requestFor(personId, NoteFindingDocument, {
        input: { ...entry.input, photoIds: [], device: noted.device },
      });
    // What is said of an item comes with the sheet of one.
    case 'change':
    case 'care':
    case 'correction':
    case 'answer':
      return (await import('./send-change.ts')).sendChange(entry, noted);
  }
}
