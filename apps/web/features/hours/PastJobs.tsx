import { Empty } from '../../components/Empty.tsx';
import { CalendarDate, Day, Figure, Hours } from '../../components/Figure.tsx';
import { More } from '../../components/More.tsx';
import { type PartsColumn, PartsList } from '../../components/PartsList.tsx';
import { groupThousands } from '../../lib/figures/hours.ts';
import styles from './hours.module.css';
import type { Hindsight } from './hours-document.ts';

/** Tasks that stand open: those with the most jobs come first. */
const OPEN = 6;

const columns: readonly PartsColumn[] = [
  { key: 'task', head: 'Task' },
  { key: 'jobs', head: 'Jobs', kind: 'figure' },
  { key: 'median', head: 'Median', kind: 'figure' },
  { key: 'standard', head: 'Standard', kind: 'figure' },
  { key: 'last', head: 'Last', kind: 'figure' },
];

/** What the estimates stand on: past jobs, counted by task. */
export function JobsByTask({ tasks }: { tasks: Hindsight['byTask'] }) {
  if (tasks.length === 0) {
    return (
      <Empty>
        Nothing has been clocked yet: estimates lean on standard hours alone until jobs are finished
        here or past ones are imported.
      </Empty>
    );
  }
  const jobs = tasks.reduce((sum, task) => sum + task.jobs, 0);
  const rows = tasks.map((task) => ({
    key: task.task,
    note: task.lowerBounds > 0 ? `and ${task.lowerBounds} handed over unfinished` : undefined,
    cells: {
      task: task.title ?? task.task,
      jobs: <Figure text={groupThousands(String(task.jobs))} />,
      median: typeof task.medianHours === 'number' ? <Hours value={task.medianHours} /> : 'none',
      standard:
        typeof task.standardHours === 'number' ? <Hours value={task.standardHours} /> : 'none',
      last: <CalendarDate date={String(task.lastOn)} />,
    },
  }));
  return (
    <div>
      <PartsList
        caption={`${groupThousands(String(jobs))} finished jobs of ${tasks.length} tasks, the most frequent first`}
        columns={columns}
        rows={rows.slice(0, OPEN)}
      />
      {rows.length > OPEN ? (
        <More words={`And ${rows.length - OPEN} tasks done less often`}>
          <PartsList
            caption="Tasks done less often"
            captionHidden
            columns={columns}
            rows={rows.slice(OPEN)}
          />
        </More>
      ) : null}
    </div>
  );
}

/** History files taken in: by whom, when, and how much came of each. */
export function Imports({
  imports,
  timeZone,
}: {
  imports: Hindsight['imports'];
  timeZone: string;
}) {
  const files = imports.edges.flatMap((edge) => (edge ? [edge.node] : []));
  if (files.length === 0) return <Empty draws="sheet">No history file has been imported.</Empty>;
  const count = (value: number) => <Figure text={groupThousands(String(value))} />;
  return (
    <PartsList
      caption="History files, newest first"
      columns={[
        { key: 'file', head: 'File' },
        { key: 'rows', head: 'Jobs added', kind: 'figure' },
        { key: 'already', head: 'There already', kind: 'figure' },
        { key: 'refused', head: 'Refused', kind: 'figure' },
        { key: 'when', head: 'Imported', kind: 'figure' },
      ]}
      rows={files.map((file) => ({
        key: file.id,
        note: file.importedBy ? `by ${file.importedBy.name}` : 'from the command line',
        cells: {
          file: <span className={styles.file}>{file.fileName}</span>,
          rows: count(file.rows),
          already: count(file.already),
          refused: count(file.refused),
          when: <Day at={String(file.importedAt)} timeZone={timeZone} time />,
        },
      }))}
    />
  );
}
