import { sayCivilDay } from '@fairlead/hangar';
import { DayDimension } from '../../components/DayDimension.tsx';
import { Dimension } from '../../components/Dimension.tsx';
import { Money } from '../../components/Figure.tsx';
import { More } from '../../components/More.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { calendarDateText, dayAndTimeText } from '../../lib/figures/dates.ts';
import { estimateOf } from '../quoting/quote-figures.ts';
import { channelWords } from '../quoting/quote-words.ts';
import { AnswerForm } from './answer-form.tsx';
import styles from './owner.module.css';
import type { Offer, OwnerPageData } from './owner-page.ts';
import { amountWords, choiceWords } from './owner-words.ts';

const estimate = ({ low, likely, p80, high }: Pick<Offer, 'low' | 'likely' | 'p80' | 'high'>) =>
  estimateOf({ low: BigInt(low), likely: BigInt(likely), p80: BigInt(p80), high: BigInt(high) });

/** One offer: its price as a dimension, the words, the answers or what was answered. */
export function OfferPart({
  offer,
  page: { you, shop },
  secret,
}: {
  offer: Offer;
  page: OwnerPageData;
  secret: string;
}) {
  const { currency, changed, state, number, revision, decisions } = offer;
  return (
    <div className={styles.offer} id={`offer-${number}`}>
      <p className={styles.quiet}>
        Offer {number}, revision {revision}, before tax
      </p>
      <Dimension estimate={estimate(offer)} unit={currency} />
      {changed === null ? null : (
        <div className={styles.changed}>
          <p>
            <b>Changed since revision {changed.since}</b>
          </p>
          <ul>
            {changed.sentences.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
        </div>
      )}
      {offer.promise === null || state !== 'sent' ? null : (
        <DayDimension
          promise={offer.promise}
          label={`Ready, if the work begins on ${sayCivilDay(offer.promise.beginsOn, offer.promise.beginsOn)}`}
        />
      )}
      <Lines offer={offer} />
      {offer.foretold === null ? null : (
        <>
          <p className={styles.quiet}>{offer.foretold.sentence}</p>
          <More words={`What tends to be found in it: ${offer.foretold.findings.length}`}>
            <ul>
              {offer.foretold.findings.map(({ title, sentence }) => (
                <li key={title}>
                  <b>{title}</b>. {sentence}
                </li>
              ))}
            </ul>
          </More>
        </>
      )}
      {offer.terms === '' ? null : <p className={styles.terms}>{offer.terms}</p>}
      {state === 'sent' ? <p className={styles.shown}>{offer.words}</p> : null}
      {decisions.length === 0 ? null : (
        <ul className={styles.decided} aria-label={`Answers to offer ${number}`}>
          {decisions.map((decision) => (
            <li key={`${decision.decidedAt}-${decision.choice}`}>
              <b>{choiceWords[decision.choice]}</b>
              {decision.ceiling === null ? '' : ` up to ${amountWords(decision.ceiling, currency)}`}
              , {decision.by}, {channelWords[decision.channel]},{' '}
              <time dateTime={decision.decidedAt}>
                {dayAndTimeText(decision.decidedAt, shop.timeZone)}
              </time>
              {decision.revision === revision ? '' : `, to revision ${decision.revision}`}
            </li>
          ))}
        </ul>
      )}
      {state === 'sent' ? <AnswerForm offer={offer} you={you} secret={secret} /> : null}
      {state === 'lapsed' ? (
        <p>
          It held until {calendarDateText(offer.expiresOn)} and cannot be accepted any more. Ask the
          shop for a new one.
        </p>
      ) : null}
    </div>
  );
}

/** What is offered line by line, folded: the sum is what is decided on. */
function Lines({ offer: { lines, currency, tax, number } }: { offer: Offer }) {
  const priced = lines.filter(({ high }) => high !== '0');
  const under = lines.length - priced.length;
  return (
    <More words={`What is in it: ${lines.length} ${lines.length === 1 ? 'line' : 'lines'}`}>
      <PartsList
        caption={`Lines of offer ${number}, before tax`}
        captionHidden
        columns={[
          { key: 'title', head: 'What' },
          { key: 'likely', head: `Likely, ${currency}`, kind: 'figure' },
        ]}
        rows={priced.map((line) => ({
          key: `${number}-${line.position}`,
          cells: {
            title: `${line.part ? `${line.quantity} × ` : ''}${line.title}`,
            likely: <Money minor={BigInt(line.likely)} currency={currency} />,
          },
          note: line.why ?? undefined,
        }))}
      />
      {under === 0 ? null : (
        <p className={styles.quiet}>
          Included in the price:{' '}
          {lines
            .filter(({ high }) => high === '0')
            .map(({ title }) => title)
            .join('; ')}
          .
        </p>
      )}
      <p className={styles.quiet}>
        Tax on the likely amount: {amountWords(tax, currency)}. Likely amounts of lines need not add
        up to that of the whole: hours add as ranges.
      </p>
    </More>
  );
}
