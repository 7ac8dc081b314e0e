'use client';

import { Suspense, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Caution } from '../../components/Caution.tsx';
import { Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import type { SeeFindingInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { clientId } from '../../lib/client-id.ts';
import type { Viewer } from '../../lib/use-viewer.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { answerChanges } from './answer-changes.ts';
import { CauseList } from './cause-row.tsx';
import styles from './diagnosis.module.css';
import { SeeFindingDocument } from './documents.ts';
import { flies } from './flies.ts';
import { SymptomSteps } from './late-diagnosis.tsx';
import { NextLooks } from './next-look.tsx';
import type { FindingMayBe } from './shown.ts';
import { TurnedOut } from './turned-out.tsx';
import { useMayBe } from './use-may-be.ts';
import { WorkHours } from './work-hours.tsx';

/** What a finding may be, with this shop's own cases: for the bench, the desk and whoever assesses it. */
export function MayBe({
  findingId,
  viewer,
  size,
}: {
  findingId: string;
  viewer: Viewer;
  /** Of what is pressed. */
  size: 'desk' | 'bench';
}) {
  const asked = useMayBe(findingId);
  if (asked.data) return <Known finding={asked.data} viewer={viewer} size={size} />;
  if (asked.isPending) return <Loading>Asking what it may be</Loading>;
  return (
    <ErrorNote head="No suggestion">
      {asked.error?.message ?? 'There is no such finding in this shop.'}
    </ErrorNote>
  );
}

function Known({
  finding,
  viewer,
  size,
}: {
  finding: FindingMayBe;
  viewer: Viewer;
  size: 'desk' | 'bench';
}) {
  const { suggestion, order } = finding;
  const { roles } = viewer.person;
  const looks = roles.some((role) => role !== 'front_desk');
  const prices = roles.includes('front_desk') || roles.includes('manager');
  const see = useDoing(
    async (input: SeeFindingInput) => (await request(SeeFindingDocument, { input })).result,
  );
  const add = (symptom: string, answers: Record<string, string | null>) =>
    see.mutate({
      findingId: finding.id,
      sighting: {
        symptom,
        answers: Object.entries(answers).map(([question, answer]) => ({ question, answer })),
      },
      seenAt: new Date().toISOString(),
      clientEventId: clientId(),
    });
  return (
    <div className={styles.frame}>
      <div className={styles.mayBe}>
        <div className={styles.column}>
          {suggestion === null ? (
            <p>Nobody has said what they see.</p>
          ) : (
            <>
              <p className={styles.says} role="status">
                {suggestion.says}
              </p>
              {suggestion.leak === null ? null : (
                <Caution head="Size of the leak" hazards={[suggestion.leak]} />
              )}
              <div>
                <CauseList
                  causes={suggestion.causes}
                  work={(cause) => (
                    <WorkHours
                      cause={cause}
                      aircraftId={order.aircraft.id}
                      findingId={finding.id}
                      prices={prices}
                    />
                  )}
                />
              </div>
              {looks ? (
                <NextLooks
                  looks={suggestion.next}
                  busy={see.isPending}
                  onAnswer={(question, answer) => add(suggestion.symptom, { [question]: answer })}
                />
              ) : null}
            </>
          )}
          {see.error ? <ErrorNote head="Not added">{see.error.message}</ErrorNote> : null}
        </div>
        <div className={styles.column}>
          <SeenSoFar
            finding={finding}
            mayAdd={looks}
            size={size}
            busy={see.isPending}
            onAdd={add}
          />
          {suggestion === null ? null : (
            <>
              <TurnedOut
                finding={finding}
                symptom={suggestion.symptom}
                may={looks}
                size={size}
                timeZone={viewer.shop.timeZone}
              />
              <ul className={styles.cautions}>
                {[...suggestion.cautions, suggestion.restsOn].map((caution) => (
                  <li key={caution}>{caution}</li>
                ))}
              </ul>
            </>
          )}
        </div>
      </div>
    </div>
  );
}

function SeenSoFar({
  finding: { suggestion, order },
  mayAdd,
  size,
  busy,
  onAdd,
}: {
  finding: FindingMayBe;
  mayAdd: boolean;
  size: 'desk' | 'bench';
  busy: boolean;
  onAdd: (symptom: string, answers: Record<string, string | null>) => void;
}) {
  const [adding, setAdding] = useState(false);
  // Another symptom is being chosen.
  const [anew, setAnew] = useState(false);
  const aircraft = flies(order.aircraft.model.kind);
  const seen = Object.fromEntries(
    (suggestion?.seen ?? []).map(({ question, answer }) => [question, answer]),
  );
  const asksForWork = suggestion !== null && seen['work'] === undefined;
  return (
    <section className={styles.part} aria-label="What it goes by">
      <h3>What it goes by</h3>
      {suggestion === null || adding ? null : (
        <ul className={styles.answered}>
          <li>{suggestion.symptomWords}</li>
          {suggestion.seen.map(({ question, asks, words, fromOrders }) => (
            <li key={question}>
              <span>
                <small>{asks}</small> {words}
                {fromOrders ? <small> as the shop’s orders say</small> : null}
              </span>
            </li>
          ))}
        </ul>
      )}
      {asksForWork && suggestion.doneBefore.length > 0 ? (
        <p className={styles.second}>
          Done on it in the three days before:{' '}
          {suggestion.doneBefore
            .slice(0, 6)
            .map(({ title }) => title)
            .join('; ')}
          .
        </p>
      ) : null}
      {mayAdd && !adding ? (
        <div>
          <Button size={size} onClick={() => setAdding(true)}>
            {suggestion === null ? 'Say what you see' : 'Say more of what you see'}
          </Button>
        </div>
      ) : null}
      {adding ? (
        <Suspense fallback={<Loading>Fetching the questions</Loading>}>
          <SymptomSteps
            aircraft={aircraft}
            busy={busy}
            sighting={
              suggestion === null || anew ? null : { symptom: suggestion.symptom, seen, aircraft }
            }
            onSighting={(next) => {
              setAnew(next === null);
              if (next !== null) onAdd(next.symptom, answerChanges(seen, next.seen));
            }}
          />
        </Suspense>
      ) : null}
    </section>
  );
}
