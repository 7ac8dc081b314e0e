import { PartsList } from '../../components/PartsList.tsx';
import { dayAndTimeText } from '../../lib/figures/dates.ts';
import styles from './people.module.css';
import type { ShopSheet } from './shop-documents.ts';

/** The table of revisions of this sheet: what was changed, by whom, when. Read from the audit, which nobody can change. */
export function ChangesPart({
  changes,
  timeZone,
}: {
  changes: ShopSheet['changes'];
  timeZone: string;
}) {
  return (
    <section className={styles.part} aria-labelledby="changes">
      <h2 id="changes">Revisions</h2>
      {changes.length === 0 ? (
        <p className={styles.second}>Nothing was changed since the shop was set up.</p>
      ) : (
        <PartsList
          caption="The latest changes of this sheet"
          captionHidden
          columns={[
            { key: 'words', head: 'Change' },
            { key: 'about', head: 'Of' },
            { key: 'by', head: 'By' },
            { key: 'at', head: 'When' },
          ]}
          rows={changes.map(({ id, at, by, about, words }) => ({
            key: id,
            cells: { words, about: about ?? 'the shop', by, at: dayAndTimeText(at, timeZone) },
          }))}
        />
      )}
    </section>
  );
}
