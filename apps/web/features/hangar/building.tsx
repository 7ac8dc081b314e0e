import styles from './floor.module.css';
import type { Floor } from './floor-documents.ts';

/** A wall is drawn this thick, metres; the program does not know the real one. */
const WALL = 0.3;

/** Metre grid, walls and the door with its sliding leaves. The door is at the foot of the drawing. */
export function Building({ hangar }: { hangar: Floor['hangar'] }) {
  const [width, depth] = [hangar.widthMm / 1000, hangar.depthMm / 1000];
  const [from, opening] = [hangar.doorFromMm / 1000, hangar.doorWidthMm / 1000];
  const to = from + opening;
  const outer = depth + WALL;
  return (
    <g>
      <rect className={styles.inside} data-scale="hangar" width={width} height={depth} />
      <path className={styles.metre} d={grid(width, depth, 1)} />
      <path className={styles.fifth} d={grid(width, depth, 5)} />
      <path
        className={styles.wall}
        d={`M${from} ${depth}V${outer}H${-WALL}V${-WALL}H${width + WALL}V${outer}H${to}V${depth}H${width}V0H0V${depth}Z`}
      />
      <path className={styles.door} d={leaves(from, opening, depth)} />
      <path
        className={styles.fifth}
        d={`M${from} ${outer + 0.2}V${outer + 1.2}M${to} ${outer + 0.2}V${outer + 1.2}`}
      />
      <path
        className={styles.dimension}
        d={`M${from} ${outer + 0.8}H${to}M${from - 0.3} ${outer + 1.1}l.6-.6M${to - 0.3} ${outer + 1.1}l.6-.6`}
      />
    </g>
  );
}

function grid(width: number, depth: number, every: number): string {
  const lines = (length: number) =>
    Array.from({ length: Math.ceil(length / every) - 1 }, (_, index) => (index + 1) * every);
  return [
    ...lines(width).map((x) => `M${x} 0V${depth}`),
    ...lines(depth).map((y) => `M0 ${y}H${width}`),
  ].join('');
}

/** Leaves that slide behind one another, half of them in each track. */
function leaves(from: number, opening: number, depth: number): string {
  const count = Math.max(2, Math.round(opening / 3.6));
  const leaf = opening / count;
  return Array.from({ length: count }, (_, index) => {
    const track = depth + (index % 2 === 0 ? 0.05 : 0.17);
    return `M${from + index * leaf} ${track}h${leaf}v.08h${-leaf}Z`;
  }).join('');
}
