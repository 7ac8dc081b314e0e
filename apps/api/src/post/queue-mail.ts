import type { MailLink, Tx } from '@fairlead/database';
import { enqueue } from '@fairlead/database/jobs';
import { Refused } from '../errors.ts';
import { mailAddress } from '../mail-address.ts';
import { newId } from '../new-id.ts';
import { LINK_MARK } from './mail-link.ts';

/** Stands among the paragraphs of a mail where its private link goes, on a line of its own. */
export const LINK = Symbol('the link');

export interface MailToQueue {
  /** Made with newId() by whoever needs it before, for the link's secret; left out: made here. */
  id?: string;
  to: { address: string; name: string };
  subject: string;
  paragraphs: readonly (string | typeof LINK)[];
  link?: MailLink;
  /** What goes with it: a kind of paper (quote, invoice, invoice.xml …), and the id of the API of what it is printed from. */
  papers?: readonly { paper: string; subject: string }[];
  /** What it is about, in words that the desk reads: "Quote 12, revision 2, QQ-117". */
  about: { words: string; quoteId?: string; orderId?: string; invoiceId?: string };
  /** Null: the program itself. */
  queuedById: string | null;
  now: Date;
}

const MOST_SUBJECT = 200;
const MOST_NAME = 120;

/** Everything that could end a line of a header becomes a blank, so that no name and no title begins another field (RFC 5322, 2.2). */
export const oneLine = (text: string, most: number): string =>
  text
    .replace(/[\p{Cc}\p{Zl}\p{Zp}\uFFFC]+/gu, ' ')
    .replace(/ {2,}/g, ' ')
    .trim()
    .slice(0, most);

const body = (text: string) =>
  text
    .replaceAll('\r\n', '\n')
    .replace(/[^\P{Cc}\n\t]|\uFFFC/gu, ' ')
    .trim();

/** Runs SQL for the queue within a transaction of Prisma's. */
const runsSql = (tx: Tx) => ({
  query: async (sql: string, values: unknown[]) => ({
    rows: await tx.$queryRawUnsafe<Record<string, unknown>[]>(sql, ...values),
  }),
});

/** Asks the worker to try a mail; a request that waits already is replaced. */
export const askToSend = (tx: Tx, mailId: string, runAt: Date) =>
  enqueue(runsSql(tx), { task: 'send_mail', payload: { mailId }, key: mailId, runAt });

/**
 * Puts a mail into the queue, within the transaction of what it tells of: it goes when that commits, and never was when it
 * rolls back. The papers are drawn by the worker before the first try, once.
 *
 * @returns its id
 * @throws Refused where the address is none
 */
export async function queueMail(tx: Tx, mail: MailToQueue): Promise<string> {
  const { to, about, papers = [], link = null, now } = mail;
  const toAddress = mailAddress(to.address);
  if (toAddress === null)
    throw new Refused(
      'AGAINST_RULE',
      `${to.name} has the e-mail address "${to.address.slice(0, 80)}", to which no mail can go: needed is one such as desk@shop.example.`,
    );
  const shop = await tx.shop.findFirstOrThrow({ select: { id: true, email: true } });
  const id = mail.id ?? newId();
  const { words, ...ids } = about;
  await tx.mail.create({
    data: {
      id,
      shopId: shop.id,
      toAddress,
      toName: oneLine(to.name, MOST_NAME),
      replyTo: shop.email,
      subject: oneLine(mail.subject, MOST_SUBJECT),
      text: mail.paragraphs
        .map((each) => (each === LINK ? LINK_MARK : body(each)))
        .filter((each) => each !== '')
        .join('\n\n'),
      link,
      about: oneLine(words, MOST_SUBJECT),
      ...ids,
      queuedAt: now,
      queuedById: mail.queuedById,
    },
    select: { id: true },
  });
  await tx.mailPaper.createMany({
    data: papers.map((paper, index) => ({ ...paper, mailId: id, position: index + 1 })),
  });
  await askToSend(tx, id, now);
  return id;
}
