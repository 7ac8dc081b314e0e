import type { ReactNode } from 'react';
import styles from './Empty.module.css';
import { End } from './marks.tsx';

const hairline = {
  fill: 'none',
  stroke: 'currentColor',
  vectorEffect: 'non-scaling-stroke' as const,
};

/** What would be there, in hairline. An aircraft is drawn by passing a Silhouette instead. */
const drawings = {
  list: (
    <svg viewBox="0 0 460 132" aria-hidden="true">
      <path
        {...hairline}
        d="M.5 .5H459.5V131.5H.5ZM.5 30H459.5M.5 64H459.5M.5 98H459.5M52 .5V131.5M352 .5V131.5"
      />
      <g {...hairline} strokeDasharray="6 5">
        <circle cx="26" cy="47" r="11" />
        <circle cx="26" cy="81" r="11" />
        <circle cx="26" cy="115" r="11" />
        <path d="M70 47H240M70 81H300M70 115H200M400 47H440M390 81H440M410 115H440" />
      </g>
    </svg>
  ),
  sheet: (
    <svg viewBox="0 0 460 300" aria-hidden="true">
      <path
        {...hairline}
        d="M.5 .5H459.5V299.5H.5ZM14 14H446V286H14ZM246 286V226H446M246 256H446M346 256V286"
      />
      <path
        {...hairline}
        strokeDasharray="6 5"
        d="M60 120H400M60 90V150M400 90V150M54 126 66 114M394 126 406 114"
      />
    </svg>
  ),
  curve: (
    <svg viewBox="0 0 460 220" aria-hidden="true">
      <path
        {...hairline}
        d="M40 8V190H452M34 150H40M34 110H40M34 70H40M34 30H40M130 190V196M220 190V196M310 190V196M400 190V196"
      />
      <path {...hairline} strokeDasharray="6 5" d="M40 190 440 20" />
    </svg>
  ),
};

/** Nothing here yet: the thing that would be there, one sentence, one action. */
export function Empty({
  draws = 'list',
  drawing,
  children,
  action,
}: {
  draws?: keyof typeof drawings;
  /** A drawing of one's own, such as a Silhouette in hairline. */
  drawing?: ReactNode;
  /** One sentence. */
  children: ReactNode;
  action?: ReactNode;
}) {
  return (
    <div className={styles.empty}>
      <div className={styles.drawing}>{drawing ?? drawings[draws]}</div>
      <p className={styles.words}>{children}</p>
      {action}
    </div>
  );
}

/** Not here yet: a dimension without its figure. It stands still, and only after a third of a second. */
export function Loading({ children }: { children: string }) {
  return (
    <div className={styles.loading} role="status">
      <svg aria-hidden="true">
        <line x1="0" x2="100%" y1="18" y2="18" stroke="currentColor" strokeDasharray="6 5" />
        <End x="1" y="18" />
        <End x="99.5%" y="18" />
      </svg>
      <p>{children}</p>
    </div>
  );
}
