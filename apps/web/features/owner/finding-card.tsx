import { Balloon } from '../../components/Balloon.tsx';
import { Caution } from '../../components/Caution.tsx';
import { Photos } from '../../components/Photos.tsx';
import { dayText } from '../../lib/figures/dates.ts';
import { OfferPart } from './offer-part.tsx';
import styles from './owner.module.css';
import type { Finding, OwnerPageData } from './owner-page.ts';
import { leavingIt } from './owner-words.ts';

const stateWords: Record<Finding['state'], string> = {
  noted: 'being looked at: no price yet',
  assessed: 'looked at: the price follows',
  offered: 'waits for your answer',
  agreed: 'agreed',
  declined: 'left for now',
  put_off: 'put off to a later visit',
  corrected: 'corrected',
};

const classWords: Record<Finding['class'], string> = {
  unairworthy: 'Unairworthy',
  discrepancy: 'Not as it should be',
  observation: 'Worth knowing',
};

/** One finding: photo, what was found, what it means, the price, the answers. */
export function FindingCard({
  finding,
  page,
  secret,
}: {
  finding: Finding;
  page: OwnerPageData;
  secret: string;
}) {
  const { number, title, words, photos, meaning, state } = finding;
  const offers = page.offers.filter((offer) => offer.finding === number);
  const open = offers.some((offer) => offer.state === 'sent');
  return (
    <article className={styles.finding} aria-labelledby={`finding-${number}`}>
      <h3 id={`finding-${number}`}>
        <Balloon number={number} /> {title}
      </h3>
      <p className={finding.class === 'unairworthy' ? styles.unairworthy : styles.quiet}>
        <b>{classWords[finding.class]}</b>
        {finding.assessed ? '' : ', as the finder sees it'}; {stateWords[state]}
      </p>
      <Photos
        of={title}
        firstOpen
        pairs={finding.pairs}
        photos={photos.map((photo) => {
          const at = (size: string) => `/owner/${secret}/photos/${photo.id}/${size}`;
          return {
            ...photo,
            thumb: at('thumb'),
            middle: at('middle'),
            large: at('large'),
            whole: at('original'),
          };
        })}
      />
      <dl className={styles.said}>
        <dt>What we found</dt>
        <dd>
          {words === '' ? title : words}{' '}
          <span className={styles.quiet}>{dayText(finding.foundAt, page.shop.timeZone)}</span>
        </dd>
        {meaning === '' ? null : (
          <>
            <dt>What it means</dt>
            <dd>{meaning}</dd>
          </>
        )}
        {finding.inoperative === null ? null : (
          <>
            <dt>It stays inoperative for now</dt>
            <dd>
              {finding.inoperative}{' '}
              <span className={styles.quiet}>
                A qualified person found that it is not required for the flights to be made. Before
                each flight the pilot in command decides whether that holds for it; elsewhere than
                in the United States other rules apply.
              </span>
            </dd>
          </>
        )}
      </dl>
      {finding.class === 'unairworthy' && (open || state === 'declined') ? (
        <Caution head="What follows from leaving it" hazards={leavingIt}>
          {page.cautions.at(-1)} This is information about the rules of the United States; elsewhere
          other rules apply.
        </Caution>
      ) : null}
      {offers.map((offer) => (
        <OfferPart key={offer.id} offer={offer} page={page} secret={secret} />
      ))}
    </article>
  );
}
