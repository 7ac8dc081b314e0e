'use client';

import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { Button } from '../../components/Button.tsx';
import { Empty, Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { request } from '../../graphql/request.ts';
import { CoverageMonths } from './CoverageMonths.tsx';
import coverage from './coverage.module.css';
import { FilterBar } from './FilterBar.tsx';
import { narrowTo, useHoursFilter } from './filter.ts';
import { Groups } from './Groups.tsx';
import styles from './hours.module.css';
import { AccuracyDocument } from './hours-document.ts';
import { ratioSentence } from './hours-words.ts';
import { LogPaper } from './LogPaper.tsx';
import { Misses } from './Misses.tsx';

/** How honest we are: what was quoted against what the clock said, of all or of what the address asks for. */
export function HowHonest({ timeZone }: { timeZone: string }) {
  const filter = useHoursFilter();
  const { data, error, refetch, isPlaceholderData } = useQuery({
    queryKey: ['hours', 'accuracy', filter],
    queryFn: () => request(AccuracyDocument, { filter }),
    placeholderData: keepPreviousData,
  });
  if (error) {
    return (
      <ErrorNote
        head="Nothing to compare"
        action={
          <>
            <Button onClick={() => narrowTo({})}>Compare all</Button>
            <Button onClick={() => void refetch()}>Ask again</Button>
          </>
        }
      >
        {error.message}
      </ErrorNote>
    );
  }
  if (!data) return <Loading>Comparing quotes with the clock</Loading>;
  const found = data.hoursAccuracy;
  if (found.everyMonth.length === 0) {
    return (
      <Empty draws="curve">
        No quoted item has been clocked and finished yet; the first one appears here by itself.
      </Empty>
    );
  }
  return (
    <div className={styles.judged} aria-busy={isPlaceholderData}>
      <FilterBar filter={filter} accuracy={found} />
      {found.coverage && found.ratio ? (
        <>
          <div className={styles.drawn}>
            <LogPaper points={found.points} of={found.coverage.items} />
            <div className={styles.said}>
              <p className={styles.honesty} aria-live="polite">
                {found.coverage.sentence}
              </p>
              <p>{ratioSentence(found.ratio)}</p>
              <CoverageMonths months={found.months} />
            </div>
          </div>
          <div className={coverage.groups}>
            <Groups what="Task" by="task" groups={found.byTask} filter={filter} />
            <Groups what="Model" by="model" groups={found.byModel} filter={filter} />
          </div>
          <Misses filter={filter} timeZone={timeZone} />
        </>
      ) : (
        <Empty draws="curve" action={<Button onClick={() => narrowTo({})}>Compare all</Button>}>
          Nothing that was quoted and finished fits all of this.
        </Empty>
      )}
    </div>
  );
}
