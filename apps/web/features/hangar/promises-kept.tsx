'use client';

import { useQuery } from '@tanstack/react-query';
import { graphql } from '../../graphql/document.ts';
import { request } from '../../graphql/request.ts';
import styles from './promises-kept.module.css';

const PromisesKeptDocument = graphql(`
  query PromisesKept {
    promisesKept {
      orders
      byP80
      low
      high
      sentence
    }
  }
`);

/** Were aircraft ready when it was promised? The share on a line from none to all, its interval, and four in five. */
export function PromisesKept() {
  const kept = useQuery({
    queryKey: ['promises-kept'],
    queryFn: async () => (await request(PromisesKeptDocument, {})).promisesKept,
  });
  if (kept.data === undefined || kept.data === null) return null;
  const { orders, byP80, low, high, sentence } = kept.data;
  const at = (share: number) => `${share * 100}%`;
  return (
    <section className={styles.part} aria-labelledby="promises-kept">
      <h2 id="promises-kept">Ready when promised</h2>
      <svg className={styles.drawing} aria-hidden="true">
        <line className={styles.base} x1="0" x2="100%" y1="22" y2="22" />
        {Array.from({ length: 6 }, (_, index) => (
          <line
            key={at(index / 5)}
            className={styles.base}
            x1={at(index / 5)}
            x2={at(index / 5)}
            y1="22"
            y2="28"
          />
        ))}
        <line x1="80%" x2="80%" y1="2" y2="34" stroke="currentColor" strokeDasharray="4 3" />
        <line x1={at(low)} x2={at(high)} y1="14" y2="14" stroke="currentColor" />
        <line x1={at(low)} x2={at(low)} y1="9" y2="19" stroke="currentColor" />
        <line x1={at(high)} x2={at(high)} y1="9" y2="19" stroke="currentColor" />
        <line
          x1={at(byP80 / orders)}
          x2={at(byP80 / orders)}
          y1="5"
          y2="23"
          stroke="currentColor"
          strokeWidth="2"
        />
      </svg>
      <p className={styles.ends} aria-hidden="true">
        <span>none</span>
        <span className={styles.wanted}>four in five</span>
        <span>all</span>
      </p>
      <p>{sentence}</p>
    </section>
  );
}
