import { More } from '../../components/More.tsx';
import styles from './records.module.css';
import type { EntryDraft } from './records-documents.ts';

/** Things that stand open: the rest is the same again, item by item. */
const OPEN = 5;

/** What keeps an entry from being signed, each with who asks for it and what to do. */
export function MissingList({ missing }: { missing: EntryDraft['missing'] }) {
  if (missing.length === 0) return null;
  return (
    <section className={styles.missing} aria-label="What is missing">
      <p>
        <b>
          Not ready to be signed: {missing.length} {missing.length === 1 ? 'thing' : 'things'}{' '}
          missing
        </b>
      </p>
      <Things missing={missing.slice(0, OPEN)} />
      {missing.length > OPEN ? (
        <More words={`And ${missing.length - OPEN} more`}>
          <Things missing={missing.slice(OPEN)} />
        </More>
      ) : null}
    </section>
  );
}

function Things({ missing }: { missing: EntryDraft['missing'] }) {
  return (
    <dl>
      {missing.map(({ paragraph, what, remedy }) => (
        <div key={`${paragraph} ${what}`}>
          <dt>{paragraph}</dt>
          <dd>
            {what}
            <span>{remedy}</span>
          </dd>
        </div>
      ))}
    </dl>
  );
}
