'use client';

import { Figure, Money } from '../../components/Figure.tsx';
import { LongDimension } from '../../components/LongDimension.tsx';
import { At, End } from '../../components/marks.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { hoursText } from '../../lib/figures/hours.ts';
import styles from './with-findings.module.css';
import type { WithFindingsData } from './with-findings-fragment.ts';

/**
 * The same offer with what tends to turn up in it: foretold beside the offer, never part of it. Each finding with how often
 * it comes, drawn with its doubt, and what it would take.
 */
export function WithFindings({
  foretold: { findings, likely, high, sentence },
  firm,
  currency,
}: {
  foretold: WithFindingsData;
  firm: bigint;
  currency: string;
}) {
  return (
    <section className={styles.part} aria-labelledby="with-findings">
      <h2 id="with-findings" className={styles.head}>
        What tends to be found in it
      </h2>
      <PartsList
        caption={`Found before in this package, parts in ${currency}, net`}
        captionHidden
        columns={[
          { key: 'what', head: 'What it would take' },
          { key: 'often', head: 'How often it comes', kind: 'dimension' },
          { key: 'hours', head: 'Hours', kind: 'figure' },
          { key: 'parts', head: 'Parts', kind: 'figure' },
        ]}
        rows={findings.map((finding) => ({
          key: finding.taskId,
          cells: {
            what: finding.title,
            often: <Often {...finding} />,
            hours: <Figure text={hoursText(finding.hoursP50)} unit="h" />,
            parts:
              finding.parts === '0' ? (
                'none told'
              ) : (
                <Money minor={BigInt(finding.parts)} currency={currency} />
              ),
          },
          note: finding.sentence,
        }))}
      />
      <LongDimension
        label="With what tends to be found, net"
        unit={currency}
        firm={firm}
        likely={BigInt(likely)}
        nineInTen={BigInt(high)}
      />
      <p className={styles.words}>{sentence}</p>
    </section>
  );
}

const perCent = (share: number) => (share < 0.01 ? 'under 1' : `${Math.round(share * 100)}`);

/** A share with its doubt, on a line from never to always. */
function Often({
  probability,
  from,
  to,
}: Pick<WithFindingsData['findings'][number], 'probability' | 'from' | 'to'>) {
  const at = (share: number) => `${(share * 100).toFixed(2)}%`;
  return (
    <span className={styles.often}>
      <span>
        <Figure text={perCent(probability)} unit="%" />
        <span className="spoken">
          {` of the time; its long-run share lies between ${perCent(from)} and ${perCent(to)} %`}
        </span>
      </span>
      <svg className={styles.line} aria-hidden="true">
        <line className={styles.base} x1="0" x2="100%" y1="12" y2="12" />
        <line x1={at(from)} x2={at(to)} y1="12" y2="12" stroke="currentColor" />
        <End x={at(from)} y="12" up={6} down={6} />
        <End x={at(to)} y="12" up={6} down={6} />
        <At x={at(probability)} y="12">
          <path d="M0-8V8" stroke="currentColor" strokeWidth="2.5" />
        </At>
      </svg>
    </span>
  );
}
