'use client';

import { useState } from 'react';
import { Tick } from '../../components/Choice.tsx';
import styles from './programme.module.css';
import type { AircraftOnRecord } from './programme-documents.ts';

/** The records to take along, sealed, and what that proves. */
export function ProofPart({ aircraft, exports }: { aircraft: AircraftOnRecord; exports: boolean }) {
  const { id, registration, proof } = aircraft;
  const [decisions, setDecisions] = useState(false);
  return (
    <section className={styles.part} aria-labelledby="proof">
      <h2 id="proof">Records to take along</h2>
      <p>
        {proof.links === 0
          ? `Nothing was signed for ${registration} here yet.`
          : `${proof.links} signed ${proof.links === 1 ? 'record' : 'records'} of ${registration} are chained.`}{' '}
        One archive holds them for machines and for people, with their photos.
      </p>
      <div className={styles.two}>
        <div>
          <h3>What the archive proves</h3>
          <ul className={styles.points}>
            {proof.proves.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </div>
        <div>
          <h3>What it does not</h3>
          <ul className={styles.points}>
            {proof.doesNotProve.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </div>
      </div>
      <dl className={styles.facts}>
        <div>
          <dt>Fingerprint of the shop’s key</dt>
          <dd className={styles.hash}>{proof.key ?? 'made with the first signature'}</dd>
        </div>
        <div>
          <dt>Hash of the last link</dt>
          <dd className={styles.hash}>{proof.head}</dd>
        </div>
      </dl>
      {exports ? (
        <div data-screen-only="" className={styles.form}>
          <Tick
            name="with-decisions"
            words="With what owners decided, and for how much"
            note="Left out, each decision stays in the chain by its digest alone: right for a buyer of the aircraft."
            ticked={decisions}
            onTick={setDecisions}
          />
          <div className={styles.row}>
            <a
              className={styles.download}
              href={`/archives/${encodeURIComponent(id)}.tar?decisions=${decisions ? 'with' : 'without'}`}
              download
            >
              Export the records of {registration}
            </a>
          </div>
          <p className={styles.quiet}>
            Anybody checks it without this shop’s server:{' '}
            <code>npm run --silent records -- verify ARCHIVE.tar --keys FINGERPRINT</code>
          </p>
        </div>
      ) : null}
    </section>
  );
}
