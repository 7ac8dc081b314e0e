'use client';

import { useQuery, useQueryClient } from '@tanstack/react-query';
import { More } from '../../components/More.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { request } from '../../graphql/request.ts';
import { FitForm, TakeOffForm } from './fit-forms.tsx';
import { hoursWords } from './hours-words.ts';
import { AircraftPartsDocument, type FittedPart, type WorkHere } from './part-documents.ts';
import styles from './programme.module.css';

/** Parts with times of their own that are fitted to an aircraft; taken off and fitted here. */
export function PartsPart({ aircraftId, moves }: { aircraftId: string; moves: boolean }) {
  const client = useQueryClient();
  const { data, error } = useQuery({
    queryKey: ['aircraftParts', aircraftId],
    queryFn: () => request(AircraftPartsDocument, { id: aircraftId }),
  });
  const fitted = data?.node?.__typename === 'Aircraft' ? data.node.partTimes : [];
  const work = data?.node?.__typename === 'Aircraft' ? data.node.workHere : [];
  const shelf = (data?.components ?? []).filter(({ aircraft }) => aircraft == null);
  return (
    <section className={styles.part} aria-labelledby="parts">
      <h2 id="parts">Parts with times of their own</h2>
      {error ? (
        <NoAnswer
          head="No parts to show"
          problem={error}
          onAgain={() => void client.refetchQueries()}
        />
      ) : data !== undefined && fitted.length === 0 ? (
        <p className={styles.quiet}>
          None is entered as fitted. <a href="/records/parts">All parts</a>
        </p>
      ) : (
        <ol className={styles.lines}>
          {fitted.map((part) => (
            <Fitted
              key={part.id}
              part={part}
              moves={moves}
              work={work}
              on={fitted.find(({ id }) => id === part.parentId)}
            />
          ))}
        </ol>
      )}
      {moves ? (
        <div data-screen-only="">
          <More words="Fit a part from the shelf">
            <FitForm aircraftId={aircraftId} shelf={shelf} fitted={fitted} work={work} />
          </More>
        </div>
      ) : null}
    </section>
  );
}

function Fitted({
  part,
  on,
  moves,
  work,
}: {
  part: FittedPart;
  work: readonly WorkHere[];
  on: FittedPart | undefined;
  moves: boolean;
}) {
  const { id, title, partNumber, serial, position, problem } = part;
  return (
    <li className={styles.line}>
      <div className={styles.named}>
        <p>
          <a href={`/records/parts/${id}`}>
            {title}, {position}
          </a>
        </p>
        <p className={styles.quiet}>
          {partNumber} · serial {serial}
          {on ? ` · on ${on.title}, ${on.position}` : ''}
        </p>
      </div>
      <p className={styles.figures}>{hoursWords(part.tisHundredths) ?? 'not known'}</p>
      <p className={styles.figures}>
        {part.sinceOverhaulHundredths == null
          ? ''
          : `${hoursWords(part.sinceOverhaulHundredths)} since overhaul`}
      </p>
      <div className={styles.because}>
        {problem == null ? null : <p>{problem}.</p>}
        {moves ? (
          <div data-screen-only="">
            <More words={`Take ${title}, ${position}, off`}>
              <TakeOffForm
                componentId={id}
                name={`${title}, ${position}`}
                lifeLimited={part.lifeLimitHundredths != null}
                work={work}
              />
            </More>
          </div>
        ) : null}
      </div>
    </li>
  );
}
