import { Figure } from '../../components/Figure.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { calendarDateText, dayAndTimeText } from '../../lib/figures/dates.ts';
import { moneyText, roundMoneyText } from '../../lib/figures/money.ts';
import { ComparedRevisions } from './compared-revisions.tsx';
import type { RevisionData } from './quote-documents.ts';
import styles from './quote-sheet.module.css';
import { channelWords, choiceWords } from './quote-words.ts';

/** The revision table, newest first, and every answer with the words it was given to. */
export function Revisions({
  revisions,
  timeZone,
}: {
  revisions: readonly RevisionData[];
  timeZone: string;
}) {
  const answers = revisions.flatMap(({ revision, decisions }) =>
    decisions.map((decision) => ({ revision, ...decision })),
  );
  return (
    <>
      <section className={styles.part}>
        <PartsList
          caption="Revisions"
          columns={[
            { key: 'revision', head: 'Rev.' },
            { key: 'drawn', head: 'Drawn' },
            { key: 'sent', head: 'Sent' },
            { key: 'holds', head: 'Holds until' },
            { key: 'model', head: 'Hours by' },
            { key: 'likely', head: 'Likely', kind: 'figure' },
            { key: 'high', head: 'Nine in ten under', kind: 'figure' },
          ]}
          rows={revisions.map((each) => ({
            key: `revision-${each.revision}`,
            cells: {
              revision: <Figure text={`${each.revision}`} />,
              drawn: `${dayAndTimeText(each.draftedAt, timeZone)}, ${each.draftedBy?.name ?? 'the program'}`,
              sent:
                each.sentAt === null || each.sentBy === null
                  ? 'not sent'
                  : `${dayAndTimeText(each.sentAt, timeZone)}, ${channelWords[each.sentBy]}`,
              holds: calendarDateText(each.expiresOn),
              model: each.modelNumber === null ? 'no model' : `model ${each.modelNumber}`,
              likely: (
                <Figure
                  text={roundMoneyText(BigInt(each.likely), each.currency)}
                  unit={each.currency}
                />
              ),
              high: (
                <Figure
                  text={roundMoneyText(BigInt(each.high), each.currency)}
                  unit={each.currency}
                />
              ),
            },
          }))}
        />
      </section>
      <ComparedRevisions revisions={revisions} />
      {answers.length === 0 ? null : (
        <section className={styles.part}>
          <h2>Answers</h2>
          <ul className={styles.answers}>
            {answers.map((each) => (
              <li className={styles.answer} key={`${each.revision} ${each.decidedAt}`}>
                <p>
                  <b>{each.contact.name}</b> said “{choiceWords[each.choice]}”
                  {each.ceiling === null
                    ? ''
                    : ` up to ${moneyText(BigInt(each.ceiling), currencyOf(revisions, each.revision))} ${currencyOf(revisions, each.revision)} net`}
                  , {channelWords[each.channel]}, {dayAndTimeText(each.decidedAt, timeZone)}, to
                  revision {each.revision}. Recorded by {each.recordedBy?.name ?? 'the program'}.
                </p>
                <blockquote>Read out: {each.wordsShown}</blockquote>
                {each.note === '' ? null : <p>{each.note}</p>}
              </li>
            ))}
          </ul>
        </section>
      )}
    </>
  );
}

const currencyOf = (revisions: readonly RevisionData[], revision: number) =>
  revisions.find((each) => each.revision === revision)?.currency ?? 'USD';
