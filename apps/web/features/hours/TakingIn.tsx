import { At, End } from '../../components/marks.tsx';
import { groupThousands } from '../../lib/figures/hours.ts';
import type { OnDesk } from './hours-document.ts';
import styles from './import.module.css';

/** How far an import is, as a dimension that is being drawn: rows that are saved, of those to be. */
export function TakingIn({ upload }: { upload: OnDesk }) {
  const { savedRows: saved, goodRows, alreadyRows, fileName } = upload;
  const all = Math.max(goodRows - alreadyRows, saved, 1);
  const share = `${(saved / all) * 100}%`;
  const words = `${groupThousands(String(saved))} of ${groupThousands(String(all))} rows saved`;
  return (
    <div
      className={styles.taking}
      role="progressbar"
      aria-label={`Importing ${fileName}`}
      aria-valuemin={0}
      aria-valuemax={all}
      aria-valuenow={saved}
      aria-valuetext={words}
    >
      <p className={styles.far}>{words}</p>
      <svg aria-hidden="true">
        <line className={styles.whole} x1="0" x2="100%" y1="18" y2="18" />
        <line className={styles.saved} x1="0" x2={share} y1="18" y2="18" />
        <End x="1" y="18" />
        <End x="99.5%" y="18" />
        <At x={share} y="18">
          <path d="M0-10V10" stroke="currentColor" strokeWidth="2" />
        </At>
      </svg>
    </div>
  );
}
