'use client';

import { useQuery, useQueryClient } from '@tanstack/react-query';
import { Empty, Loading } from '../../components/Empty.tsx';
import { More } from '../../components/More.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { request } from '../../graphql/request.ts';
import { calendarDateText, dayAndTimeText, dayText } from '../../lib/figures/dates.ts';
import { useViewer } from '../../lib/use-viewer.ts';
import { type Deadline, DeadlinesDocument } from './deadline-documents.ts';
import { CheckForm, DataForm, DoneForm, DutyForm } from './deadline-forms.tsx';
import { deadlineKinds, deadlineStates } from './deadline-words.ts';
import styles from './programme.module.css';
import { RecordsNav } from './records-nav.tsx';

const notes = [
  'The form of a major repair or alteration goes to the authority within 48 hours of the approval for return to service (14 CFR part 43, Appendix B); a repair station reports a serious defect within 96 hours (14 CFR 145.221). Read the paragraphs themselves: this list is an aid.',
];

/** What is owed, and when tools, certificates and data run out, in one list. */
export function DeadlinesSheet() {
  const viewer = useViewer();
  const client = useQueryClient();
  const { data, error } = useQuery({
    queryKey: ['deadlines'],
    queryFn: () => request(DeadlinesDocument),
  });
  const problem = viewer.error ?? error;
  const count = (state: Deadline['state']) =>
    data?.deadlines.filter((each) => each.state === state).length ?? 0;
  const is = (...roles: string[]) =>
    viewer.data?.person.roles.some((role) => roles.includes(role)) ?? false;
  return (
    <Sheet
      here="records"
      viewer={viewer.data?.person ?? null}
      title="Deadlines"
      notes={notes}
      titleBlock={{
        what: 'Forms, reports, calibrations, certificates, data',
        cells: viewer.data
          ? [
              { label: 'Late', value: count('late'), figures: true },
              { label: 'Soon', value: count('soon'), figures: true },
              {
                label: 'Date',
                value: dayText(new Date(), viewer.data.shop.timeZone),
                figures: true,
              },
              { label: 'Shop', value: viewer.data.shop.name, span: 'whole' },
            ]
          : [],
      }}
    >
      <div className={styles.sections}>
        {is('inspector', 'manager') ? <RecordsNav here="deadlines" /> : null}
        {data && viewer.data ? (
          <>
            {data.deadlines.length === 0 ? (
              <Empty>
                Nothing runs out and nothing is owed; tools, certificates and data stand here once
                they are entered.
              </Empty>
            ) : (
              <ol className={styles.lines}>
                {data.deadlines.map((deadline) => (
                  <Line
                    key={deadline.id}
                    deadline={deadline}
                    timeZone={viewer.data.shop.timeZone}
                    checks={is('inspector', 'manager')}
                  />
                ))}
              </ol>
            )}
            <div data-screen-only="" className={styles.form}>
              <More words="Something is owed to the authority">
                <DutyForm orders={data.orders.edges.map(({ node }) => node)} />
              </More>
              {is('inspector', 'manager') ? (
                <More words="Maintenance data to look up from time to time">
                  <DataForm />
                </More>
              ) : null}
            </div>
          </>
        ) : problem ? (
          <NoAnswer
            head="No deadlines to show"
            problem={problem}
            onAgain={() => void client.refetchQueries()}
          />
        ) : (
          <Loading>Fetching the deadlines</Loading>
        )}
      </div>
    </Sheet>
  );
}

function Line({
  deadline,
  timeZone,
  checks,
}: {
  deadline: Deadline;
  timeZone: string;
  checks: boolean;
}) {
  const { id, kind, title, detail, dueAt, dueOn, state, doneAt, doneBy, doneWords } = deadline;
  const owed = kind === 'major_form' || kind === 'defect_report';
  return (
    <li className={styles.line}>
      <div className={styles.named}>
        <p>{title}</p>
        <p className={styles.quiet}>{deadlineKinds[kind]}</p>
      </div>
      <p className={styles.state} data-state={state}>
        {deadlineStates[state]}
      </p>
      <p className={styles.figures}>
        {dueAt != null
          ? dayAndTimeText(dueAt, timeZone)
          : dueOn != null
            ? calendarDateText(dueOn)
            : ''}
      </p>
      <div className={styles.because}>
        <p>
          {detail}
          {doneAt == null
            ? ''
            : `; ${doneWords}, said by ${doneBy} on ${dayAndTimeText(doneAt, timeZone)}`}
        </p>
        {owed && state !== 'done' ? (
          <div data-screen-only="">
            <More words={`${title}: it went, or is not owed`}>
              <DoneForm dutyId={id} title={title} />
            </More>
          </div>
        ) : null}
        {kind === 'data' && checks ? (
          <div data-screen-only="">
            <More words={`${title}: looked up today`}>
              <CheckForm sourceId={id} title={title} />
            </More>
          </div>
        ) : null}
      </div>
    </li>
  );
}
