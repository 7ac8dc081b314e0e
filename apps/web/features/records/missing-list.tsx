import { More } from '../../components/More.tsx';
import { byRemedy } from './by-remedy.ts';
import type { EntryDraft } from './entry-documents.ts';
import styles from './records.module.css';

/** What keeps an entry from being signed, each with who asks for it and what to do, and the items that it is alike at. */
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
      <dl>
        {byRemedy(missing).map(({ paragraph, what, remedy, items }) => (
          <div key={`${paragraph} ${what} ${remedy}`}>
            <dt>{paragraph}</dt>
            <dd>
              {what}
              {items.length === 0 ? null : <At items={items} />}
              <span>{remedy}</span>
            </dd>
          </div>
        ))}
      </dl>
    </section>
  );
}

/** One stands behind its words; several fold under their number. */
function At({ items }: { items: readonly string[] }) {
  if (items.length === 1) return <>: {items[0]}</>;
  return (
    <More words={`${items.length} items`}>
      <ul>
        {items.map((each) => (
          <li key={each}>{each}</li>
        ))}
      </ul>
    </More>
  );
}
