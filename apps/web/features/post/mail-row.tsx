import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Hatch } from '../../components/Hatch.tsx';
import { request } from '../../graphql/request.ts';
import { dayAndTimeText } from '../../lib/figures/dates.ts';
import { useDoing } from '../quoting/use-answer.ts';
import styles from './post.module.css';
import { type MailOnSheet, PutMailAwayDocument, TryMailAgainDocument } from './post-documents.ts';
import { eventWords, mailMarks } from './post-words.ts';

/** One mail: what it is about, how far it has come, its words, and what the desk can do about it. */
export function MailRow({
  mail,
  timeZone,
  open,
  sends,
}: {
  mail: MailOnSheet;
  timeZone: string;
  /** Whether its words are shown at once. */
  open: boolean;
  /** Whether a mail server is set, so that trying again is of use. */
  sends: boolean;
}) {
  const again = useDoing(
    async () => (await request(TryMailAgainDocument, { mailId: mail.id })).tryMailAgain,
  );
  const away = useDoing(
    async () => (await request(PutMailAwayDocument, { mailId: mail.id })).putMailAway,
  );
  const when = (at: string) => dayAndTimeText(at, timeZone);
  const problem = again.error ?? away.error;
  const last = mail.events.at(-1);
  const over = mail.state === 'sent' || mail.state === 'put_away';
  const subject = mail.quote
    ? `/desk/quotes/${mail.quote.id}`
    : mail.invoice
      ? `/books/${mail.invoice.id}`
      : null;
  return (
    <li className={styles.mail}>
      <div className={styles.line}>
        <h3>{subject === null ? mail.about : <a href={subject}>{mail.about}</a>}</h3>
        <Hatch {...mailMarks[mail.state]} />
      </div>
      <p className={styles.second}>
        To {mail.toName}, <span className={styles.figures}>{mail.to}</span>. Asked for{' '}
        {when(mail.queuedAt)} by {mail.queuedBy?.name ?? 'the program'}.
      </p>
      {last && last.words !== '' ? (
        <p className={mail.state === 'failed' ? styles.failed : undefined}>
          {mail.state === 'put_away' ? 'Why' : 'The mail server'}: {last.words}
        </p>
      ) : null}
      {last?.nextAt == null ? null : <p>Tried next {when(last.nextAt)}.</p>}
      <details open={open}>
        <summary>Its words, and what happened to it</summary>
        <p>
          <b>{mail.subject}</b>
        </p>
        <p className={styles.words}>{mail.text}</p>
        {mail.papers.map((paper) => (
          <p key={paper.id}>
            {paper.filename === null ? (
              'A paper goes with it; it is drawn before the first try.'
            ) : (
              <a href={paper.url}>{paper.filename}</a>
            )}
          </p>
        ))}
        <ol className={styles.events}>
          {mail.events.map(({ id, kind, at, by, words, nextAt }) => (
            <li key={id}>
              <span className={styles.figures}>{when(at)}</span> {eventWords[kind]}
              {by === null ? '' : ` ${by.name}`}
              {words === '' ? '' : `: ${words}`}
              {nextAt === null ? '' : `; next ${when(nextAt)}`}
            </li>
          ))}
        </ol>
        {triedAndUnknown(mail) ? (
          <p>
            One try ended without an answer: the mail may have come twice, under one and the same
            Message-ID.
          </p>
        ) : null}
      </details>
      {problem === null ? null : <ErrorNote head="Not done">{problem.message}</ErrorNote>}
      {over ? null : (
        <div className={styles.ways} data-screen-only="">
          {sends ? (
            <Button
              aria-label={`Try again: ${mail.about}, to ${mail.toName}`}
              busy={again.isPending ? 'Asking' : undefined}
              onClick={() => again.mutate(undefined)}
            >
              Try again
            </Button>
          ) : null}
          <Button
            aria-label={`Put away: ${mail.about}, to ${mail.toName}`}
            busy={away.isPending ? 'Putting it away' : undefined}
            onClick={() => away.mutate(undefined)}
          >
            Put away
          </Button>
        </div>
      )}
    </li>
  );
}

/** Whether a try began of which nobody knows how it ended: another began, and no answer came between. */
const triedAndUnknown = ({ events }: MailOnSheet) => {
  const tries = events.filter(({ kind }) => kind === 'tried').length;
  const answers = events.filter(({ kind }) =>
    ['sent', 'delayed', 'refused', 'given_up'].includes(kind),
  ).length;
  return tries > answers + (events.at(-1)?.kind === 'tried' ? 1 : 0);
};
