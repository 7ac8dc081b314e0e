import { type Client, inShop, type Tx } from '@fairlead/database';
import type { JobTask } from '@fairlead/database/jobs';
import type pg from 'pg';
import { Refused } from '../errors.ts';
import { newId } from '../new-id.ts';
import { shopKey } from '../shop-key.ts';
import { mailState } from '../states.ts';
import { type DrawPaper, drawPapers } from './draw-papers.ts';
import { linkStands } from './link-stands.ts';
import { type MailAtHand, mailAtHand, triesOf } from './mail-at-hand.ts';
import { appendMailEvent, holdMail, type NewMailEvent } from './mail-events.ts';
import { readMailFile } from './mail-files.ts';
import { withMail } from './mail-lanes.ts';
import { mailSecret, textWith } from './mail-link.ts';
import { nextTry, TRIED_FOR_MS } from './next-try.ts';
import { askToSend } from './queue-mail.ts';
import { handOver, type Outcome, type OutgoingMail, type SmtpSettings } from './transport.ts';

export interface PostParts {
  uploadsDir: string;
  webOrigin: string;
  /** Null: no mail server is set, so mails are kept. */
  smtp: SmtpSettings | null;
  /** Connections whose only use is to hold a mail while it is sent. */
  locks: pg.Pool;
  draw: DrawPaper;
}

const BUSY_MS = 5_000;
/** A database that is away for a moment must not make a mail go twice: what became of it is said again after so many seconds. */
const SAY_AGAIN_S = [1, 2, 4, 8, 16];

/** The worker's job: draws what goes with a mail, hands it to the server, and says what became of it. */
export const postJobs = (client: Client, parts: PostParts): Record<'send_mail', JobTask> => ({
  send_mail: async ({ shopId, mailId }) => {
    if (typeof mailId !== 'string') throw new TypeError('A mail was to be sent without its id');
    const inside = <T>(work: (tx: Tx) => Promise<T>) =>
      inShop(client, { shopId, personId: null, requestId: newId() }, work);
    const locked = await withMail(parts.locks, mailId, () =>
      sendMail({ client, parts, inside }, mailId),
    );
    if (locked.kind === 'busy')
      await inside((tx) => askToSend(tx, mailId, new Date(Date.now() + BUSY_MS)));
  },
});

interface Hands {
  client: Client;
  parts: PostParts;
  inside<T>(work: (tx: Tx) => Promise<T>): Promise<T>;
}

async function sendMail({ client, parts, inside }: Hands, mailId: string): Promise<void> {
  const { uploadsDir, webOrigin, smtp, draw } = parts;
  // load
  const asked = await inside((tx) => mailAtHand(tx, mailId));
  if (!asked) return;
  const say = (event: Omit<NewMailEvent, 'at'>) =>
    inside(async (tx) => {
      await holdMail(tx, mailId);
      // Put away while it was on its way: only that it went all the same is news.
      if (event.kind !== 'sent' && !(await mailAtHand(tx, mailId))) return;
      await appendMailEvent(tx, mailId, { ...event, at: new Date() });
      if (event.nextAt) await askToSend(tx, mailId, event.nextAt);
    });
  // draw and read what goes with it
  const key = await shopKey(uploadsDir, asked.shopId);
  const secret = asked.link ? mailSecret(key, mailId) : '';
  let message: OutgoingMail | null;
  try {
    await drawPapers({ client, uploadsDir, draw }, asked);
    const drawn = await inside((tx) => mailAtHand(tx, mailId));
    if (!drawn || mailState(drawn) === 'kept') return;
    message = smtp && (await outgoing(drawn, { uploadsDir, webOrigin, secret }));
  } catch (error) {
    const words = whyForGood(error, asked);
    if (words === null) throw error;
    if (mailState(asked) === 'waits') await say({ kind: 'refused', words });
    return;
  }
  if (!smtp || !message) return say({ kind: 'kept' });

  // decide
  const begun = await inside(async (tx) => {
    await holdMail(tx, mailId);
    // Put away while its papers were drawn.
    const mail = await mailAtHand(tx, mailId);
    if (!mail || mailState(mail) !== 'waits') return null;
    const broken = await linkStands(tx, mail, secret, new Date());
    await appendMailEvent(tx, mailId, {
      ...(broken === null ? { kind: 'tried' } : { kind: 'refused', words: broken }),
      at: new Date(),
    });
    return broken === null ? mailAtHand(tx, mailId) : null;
  });
  if (!begun) return;

  // send, in no transaction; then save
  const outcome = await handOver(smtp, message);
  await sayAgain(() => say(eventOf(outcome, begun)));
}

/** Why a mail can never go, in a sentence for the desk; null where the job is to be tried again. */
function whyForGood(error: unknown, mail: MailAtHand): string | null {
  if (error instanceof Refused && error.code !== 'UNAVAILABLE') return `Not sent: ${error.message}`;
  const late = Date.now() - triesOf(mail).since.getTime() > TRIED_FOR_MS;
  return late ? 'Not sent: its papers could not be drawn for five days, by a fault of ours.' : null;
}

async function outgoing(
  mail: MailAtHand,
  { uploadsDir, ...at }: { uploadsDir: string; webOrigin: string; secret: string },
): Promise<OutgoingMail> {
  const files = mail.papers.flatMap((paper) => paper.files);
  return {
    id: mail.id,
    fromName: mail.shop.name,
    to: { address: mail.toAddress, name: mail.toName },
    replyTo: mail.replyTo,
    subject: mail.subject,
    text: textWith(mail, at),
    date: mail.queuedAt,
    automatic: mail.queuedById === null,
    files: await Promise.all(
      files.map(async ({ filename, mime, sha256 }) => ({
        filename,
        mime,
        content: await readMailFile(uploadsDir, mail.shopId, sha256),
      })),
    ),
  };
}

function eventOf({ kind, words }: Outcome, mail: MailAtHand): Omit<NewMailEvent, 'at'> {
  if (kind !== 'delayed') return { kind, words };
  const { since, tries } = triesOf(mail);
  const nextAt = nextTry(tries, since, new Date());
  return nextAt ? { kind, words, nextAt } : { kind: 'given_up', words };
}

async function sayAgain(say: () => Promise<unknown>): Promise<void> {
  for (const seconds of SAY_AGAIN_S) {
    try {
      await say();
      return;
    } catch {
      await new Promise((done) => setTimeout(done, seconds * 1000));
    }
  }
  await say();
}
