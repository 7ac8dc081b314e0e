'use client';

import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { request } from '../../graphql/request.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { SetChecklistDocument } from '../safety/shop-documents.ts';
import styles from './catalogue.module.css';
import {
  type PackageOnSheet,
  SaveTaskDocument,
  type TaskInPackage,
} from './catalogue-documents.ts';

type Line = PackageOnSheet['missing'][number];

/** Lines of the rule that no task answers, each with the way to make a task of it. */
export function MissingLines({
  lines,
  onAdd,
}: {
  lines: readonly Line[];
  onAdd: (task: TaskInPackage) => void;
}) {
  const adding = useDoing(async ({ title, jasc, paragraph, checklist }: Line) => {
    const { answer } = await request(SaveTaskDocument, {
      input: {
        title,
        jasc,
        critical: false,
        cautions: [],
        reference: `Scope: 14 CFR part 43, ${paragraph}. How: the maker’s current manual.`,
        paragraphs: [paragraph],
      },
    });
    if (answer.__typename !== 'Task') return answer;
    const list = await request(SetChecklistDocument, {
      input: { taskId: answer.id, lines: checklist, seen: [] },
    });
    onAdd({ ...answer, checklist });
    return list.answer;
  });
  if (lines.length === 0) return null;
  return (
    <section className={styles.missing} aria-labelledby="missing">
      <h3 id="missing">
        {lines.length} {lines.length === 1 ? 'line' : 'lines'} of the rule that no task says it
        answers
      </h3>
      <ul>
        {lines.map((line) => (
          <li key={line.paragraph}>
            <span>{line.title}</span>
            <span className={styles.rule}>{line.paragraph}</span>
            <Button kind="plain" onClick={() => adding.mutate(line)} disabled={adding.isPending}>
              add it<span className="spoken"> {line.title}</span>
            </Button>
          </li>
        ))}
      </ul>
      {adding.error ? <ErrorNote head="Not added">{adding.error.message}</ErrorNote> : null}
    </section>
  );
}
