'use client';

import { useQuery, useQueryClient } from '@tanstack/react-query';
import { More } from '../../components/More.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { request } from '../../graphql/request.ts';
import { calendarDateText, dayText } from '../../lib/figures/dates.ts';
import { DecideForm } from './decide-form.tsx';
import { AircraftDirectivesDocument, type DirectiveLine } from './directive-documents.ts';
import styles from './programme.module.css';
import { kindWords } from './programme-words.ts';

/** Directives and bulletins that reach an aircraft, and what a person decided on each. */
export function DirectivesPart({
  aircraftId,
  timeZone,
  decides,
}: {
  aircraftId: string;
  timeZone: string;
  decides: boolean;
}) {
  const client = useQueryClient();
  const { data, error } = useQuery({
    queryKey: ['aircraftDirectives', aircraftId],
    queryFn: async () => {
      const { node } = await request(AircraftDirectivesDocument, { id: aircraftId });
      return node?.__typename === 'Aircraft' ? node.directives : [];
    },
  });
  return (
    <section className={styles.part} aria-labelledby="directives">
      <h2 id="directives">Directives and bulletins</h2>
      <p className={styles.quiet}>
        What the shop entered, compared with what is fitted. The authority’s own publication counts;
        a person who holds the certificate decides. <a href="/records/directives">All directives</a>
      </p>
      {error ? (
        <NoAnswer
          head="No directives to show"
          problem={error}
          onAgain={() => void client.refetchQueries()}
        />
      ) : data?.length === 0 ? (
        <p className={styles.quiet}>None that is entered here reaches it.</p>
      ) : (
        <ol className={styles.lines}>
          {(data ?? []).map((line) => (
            <Line
              key={`${line.directive.id} ${line.componentId ?? ''}`}
              {...{ line, aircraftId, timeZone, decides }}
            />
          ))}
        </ol>
      )}
    </section>
  );
}

function wordsOf({ directive: { kind, supersededBy }, decision }: DirectiveLine): string {
  if (supersededBy) return `superseded by ${supersededBy.number}`;
  if (!decision) return 'not decided';
  if (kind === 'directive') return decision.binds ? 'applies' : 'does not apply';
  return decision.binds ? 'chosen' : 'not chosen';
}

function Line({
  line,
  aircraftId,
  timeZone,
  decides,
}: {
  line: DirectiveLine;
  aircraftId: string;
  timeZone: string;
  decides: boolean;
}) {
  const { directive, part, because, decision } = line;
  const { number, revision, revisedOn, authority, subject, terms, terminating, method } = directive;
  return (
    <li className={styles.line}>
      <div className={styles.named}>
        <p>
          {subject} · {number}
          {revision === '' ? '' : ` · ${revision}`}
        </p>
        <p className={styles.quiet}>
          {[kindWords[directive.kind], authority, `of ${calendarDateText(revisedOn)}`, part]
            .filter((word) => word != null)
            .join(' · ')}
        </p>
      </div>
      <p className={styles.state} data-state={decision ? 'ok' : 'undecided'}>
        {wordsOf(line)}
      </p>
      <div className={styles.because}>
        <p>{because}.</p>
        <p>
          {method}. {terms}.{terminating === '' ? '' : ` The repeat ends with: ${terminating}.`}
        </p>
        {decision ? (
          <p>
            Decided by {decision.by} on {dayText(decision.at, timeZone)}: {decision.reason}
          </p>
        ) : null}
        {decides && !directive.supersededBy ? (
          <div data-screen-only="">
            <More words={decision ? 'Decide anew' : 'Decide'}>
              <DecideForm line={line} aircraftId={aircraftId} />
            </More>
          </div>
        ) : null}
      </div>
    </li>
  );
}
