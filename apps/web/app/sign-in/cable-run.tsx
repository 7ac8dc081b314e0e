import { hatchFill } from '../../components/Hatch.tsx';
import styles from './sign-in.module.css';

/** The stations of a job, in the order in which the cable passes them. */
const stations = ['quote', 'authorise', 'work', 'find', 'sign', 'invoice', 'learn'] as const;

const FIRST = 52;
const APART = 96;
const CABLE = 136;
/** Where the frame stands whose fitting is drawn again, larger. */
const DETAIL = 3;

/** What the program is named after: a control cable that runs true through its frames, and the fitting that lets it. */
export function CableRun() {
  const at = (index: number) => FIRST + index * APART;
  const last = at(stations.length - 1);
  return (
    <svg
      className={styles.run}
      role="img"
      aria-label={`A control cable runs true through the fairleads of seven frames: ${stations.join(', ')}. One fairlead is drawn again, larger, in section.`}
      viewBox="0 0 680 470"
      width="680"
      height="470"
    >
      <Frames at={at} />
      <Cable from={4} to={676} y={CABLE} gauge={4} />
      <g className={styles.hair}>
        <path d={`M0 ${CABLE}H680`} strokeDasharray="26 5 6 5" />
        <path
          d={`M${at(0)} 238V276M${last} 238V276M${at(0)} 266H${last}M${at(0) - 6} 272l12-12M${last - 6} 272l12-12`}
        />
        <circle cx={at(DETAIL)} cy={CABLE} r="32" />
        <path d={`M${at(DETAIL)} 240V312`} strokeDasharray="26 5 6 5" />
      </g>
      <text className={styles.onLine} x={(at(0) + last) / 2 + 104} y="260">
        one job
      </text>
      <Fairlead x={at(DETAIL)} y={384} />
    </svg>
  );
}

/** The frames in section, each with its fitting, its number above and its word below. */
function Frames({ at }: { at: (index: number) => number }) {
  return stations.map((word, index) => {
    const x = at(index);
    return (
      <g key={word}>
        <path className={styles.hair} d={`M${x} 44V74`} />
        <circle className={styles.balloon} cx={x} cy="28" r="16" />
        <text className={styles.figure} x={x} y="33.5">
          {index + 1}
        </text>
        <g className={styles.cut} fill={hatchFill('in_work')}>
          <path d={`M${x - 4} 74H${x + 22}V82H${x + 4}V${CABLE - 16}H${x - 4}Z`} />
          <path d={`M${x - 4} 204H${x + 22}V196H${x + 4}V${CABLE + 16}H${x - 4}Z`} />
        </g>
        <path
          className={styles.cut}
          fill="var(--ground)"
          d={`M${x - 11} ${CABLE - 16}H${x + 11}V${CABLE + 16}H${x - 11}Z`}
        />
        <text x={x} y="228">
          {word}
        </text>
      </g>
    );
  });
}

/** A cable between its two broken ends, its strands laid to the right. */
function Cable({ from, to, y, gauge }: { from: number; to: number; y: number; gauge: number }) {
  const lay = gauge * 2.2;
  const strands = Array.from(
    { length: Math.floor((to - from) / lay) - 1 },
    (_, index) => `M${from + (index + 0.5) * lay} ${y + gauge}l${lay * 0.9} ${-2 * gauge}`,
  );
  return (
    <>
      <path className={styles.cable} d={`M${from} ${y - gauge}H${to}V${y + gauge}H${from}Z`} />
      <path className={styles.hair} d={strands.join('')} />
    </>
  );
}

/** The fitting in section, four times as large: a split block in the cut web, and the cable that it guides. */
function Fairlead({ x, y }: { x: number; y: number }) {
  const half = (way: 1 | -1) =>
    `M${x - 44} ${y + way * 13}H${x + 44}V${y + way * 40}H${x + 22}V${y + way * 64}H${x - 22}V${y + way * 40}H${x - 44}Z`;
  const web = (way: 1 | -1) => `M${x - 8} ${y + way * 64}V${y + way * 82}H${x + 8}V${y + way * 64}`;
  return (
    <>
      <g className={styles.cut} fill={hatchFill('in_work')}>
        <path d={half(-1)} />
        <path d={half(1)} />
      </g>
      <path className={styles.cut} fill="var(--ground)" d={web(-1) + web(1)} />
      <Cable from={x - 150} to={x + 150} y={y} gauge={10} />
      <g className={styles.hair}>
        <path d={`M${x - 170} ${y}H${x + 170}`} strokeDasharray="26 5 6 5" />
        <path d={`M${x + 32} ${y - 30}L${x + 96} ${y - 62}H${x + 268}`} />
        <path d={`M${x - 100} ${y + 2}L${x - 132} ${y + 52}H${x - 284}`} />
      </g>
      <circle cx={x + 32} cy={y - 30} r="3.2" fill="currentColor" />
      <circle cx={x - 100} cy={y + 2} r="3.2" fill="currentColor" />
      <text className={styles.noteText} x={x + 100} y={y - 70}>
        fairlead, split
      </text>
      <text className={styles.noteText} x={x + 100} y={y - 42}>
        leads it past all in its way
      </text>
      <text className={styles.noteText} x={x - 284} y={y + 44}>
        control cable
      </text>
      <text className={styles.noteText} x={x - 284} y={y + 72}>
        runs true to its end
      </text>
    </>
  );
}
