'use client';

import { Balloon } from '../../components/Balloon.tsx';
import { ButtonLink } from '../../components/Button.tsx';
import { Dimension } from '../../components/Dimension.tsx';
import { Hatch } from '../../components/Hatch.tsx';
import { Photos, photoOfShop } from '../../components/Photos.tsx';
import type { FindingClass } from '../../graphql/generated/graphql.ts';
import { dayAndTimeText } from '../../lib/figures/dates.ts';
import type { Viewer } from '../../lib/use-viewer.ts';
import { FoldedMayBe } from '../diagnosis/folded-may-be.tsx';
import { AssessForm } from './assess-form.tsx';
import type { FindingData } from './finding-on-sheet.ts';
import styles from './finding-part.module.css';
import { InoperativePart, InoperativeWords } from './inoperative-part.tsx';
import { findingMarks } from './order-words.ts';
import { wordsOfZone } from './places.ts';
import { PutOffForm } from './put-off-form.tsx';
import { estimateOf } from './quote-figures.ts';
import { quoteMarks } from './quote-words.ts';

export const classWords: Record<FindingClass, string> = {
  unairworthy: 'unairworthy',
  discrepancy: 'discrepancy',
  observation: 'observation',
};

/** One finding: what was seen, what it means, what it would cost, and the next thing to do. */
export function FindingPart({ finding, viewer }: { finding: FindingData; viewer: Viewer }) {
  const { number, title, state, photos, quotes } = finding;
  const { roles } = viewer.person;
  const judges = roles.includes('inspector') || roles.includes('manager');
  const desk = roles.includes('front_desk') || roles.includes('manager');
  const open = state === 'noted' || state === 'assessed' || state === 'declined';
  return (
    <article className={styles.finding} id={`finding-${number}`}>
      <div className={styles.head}>
        <h3>
          <Balloon number={number} /> {title}
        </h3>
        <Hatch {...findingMarks[state]} />
      </div>
      <div className={styles.body}>
        <div className={styles.words}>
          <ClassLine finding={finding} />
          {finding.words === '' ? null : <p>{finding.words}</p>}
          {finding.meaning === '' ? null : <p className={styles.meaning}>{finding.meaning}</p>}
          {finding.putOffBecause === null ? null : <p>Put off: {finding.putOffBecause}</p>}
          <InoperativeWords finding={finding} timeZone={viewer.shop.timeZone} />
          <p className={styles.who}>
            {finding.foundBy.name}, {dayAndTimeText(finding.foundAt, viewer.shop.timeZone)}
            {finding.zone === '' ? '' : `, ${wordsOfZone(finding.zone)}`}
          </p>
        </div>
        {photos.length === 0 ? null : (
          <div className={styles.photos}>
            <Photos of={title} photos={photos.map(photoOfShop)} pairs={finding.photoPairs} />
          </div>
        )}
      </div>
      {quotes.map((quote) => (
        <div className={styles.quote} key={quote.id}>
          <a href={`/desk/quotes/${quote.id}`}>
            Quote {quote.number}, {quoteMarks[quote.state].word}
          </a>
          <Dimension
            unit={quote.newest.currency}
            estimate={estimateOf({
              low: BigInt(quote.newest.low),
              likely: BigInt(quote.newest.likely),
              p80: BigInt(quote.newest.p80),
              high: BigInt(quote.newest.high),
            })}
          />
        </div>
      ))}
      <div className={styles.next} data-screen-only="">
        <FoldedMayBe finding={finding} viewer={viewer} />
        {state === 'noted' || state === 'put_off' ? (
          judges ? (
            <AssessForm finding={finding} />
          ) : (
            <p className={styles.who}>
              An inspector assesses it before it is priced and offered: the class is still the
              finder’s.
            </p>
          )
        ) : null}
        {state === 'assessed' && desk && quotes.length === 0 ? (
          <div>
            <ButtonLink kind="primary" href={`/desk/quotes/new?finding=${finding.id}`}>
              Price it
            </ButtonLink>
          </div>
        ) : null}
        {roles.includes('inspector') && (state === 'put_off' || state === 'declined') ? (
          <InoperativePart finding={finding} />
        ) : null}
        {open && (judges || desk) ? <PutOffForm findingId={finding.id} /> : null}
      </div>
    </article>
  );
}

function ClassLine({ finding }: { finding: FindingData }) {
  return (
    <p className={finding.class === 'unairworthy' ? styles.unairworthy : undefined}>
      <b>{classWords[finding.class]}</b>
      {finding.provisional ? ', as the finder sees it' : ', assessed'}
    </p>
  );
}
