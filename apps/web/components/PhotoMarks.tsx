import styles from './PhotoMarks.module.css';

/** A mark over a photo; places in thousandths of its width and height. */
export interface Mark {
  kind: 'arrow' | 'ring' | 'note';
  x: number;
  y: number;
  toX: number;
  toY: number;
  words: string;
}

/** What the marks say, for the line beneath: rings and arrows are seen, words are also heard. */
export const markWords = (marks: readonly Mark[]): string => {
  const said = marks.flatMap(({ words }) => (words === '' ? [] : [words]));
  return said.length === 0 ? '' : `. Marked: ${said.join('; ')}`;
};

/** Marks as drawn lines over a photo of this many pixels: dark under light, so that they show on any picture. */
export function PhotoMarks({
  marks,
  width,
  height,
}: {
  marks: readonly Mark[];
  width: number;
  height: number;
}) {
  if (marks.length === 0) return null;
  const unit = Math.max(width, height) / 1000;
  return (
    <svg
      className={styles.marks}
      viewBox={`0 0 ${width} ${height}`}
      aria-hidden="true"
      style={{ ['--unit' as string]: `${unit}px` }}
    >
      {marks.map((mark, index) => {
        const at = placesOf(mark, width, height);
        return (
          <g key={index}>
            <MarkLines mark={mark} {...at} unit={unit} className={styles.under} />
            <MarkLines mark={mark} {...at} unit={unit} className={styles.over} />
          </g>
        );
      })}
    </svg>
  );
}

const placesOf = ({ x, y, toX, toY }: Mark, width: number, height: number) => ({
  x: (x * width) / 1000,
  y: (y * height) / 1000,
  toX: (toX * width) / 1000,
  toY: (toY * height) / 1000,
});

interface Drawn {
  mark: Mark;
  x: number;
  y: number;
  toX: number;
  toY: number;
  unit: number;
  className: string | undefined;
}

function MarkLines({ mark, x, y, toX, toY, unit, className }: Drawn) {
  if (mark.kind === 'ring')
    return (
      <circle
        className={className}
        cx={x}
        cy={y}
        r={Math.max(8 * unit, Math.hypot(toX - x, toY - y))}
      />
    );
  if (mark.kind === 'note')
    return (
      <text className={className} x={x} y={y} fontSize={34 * unit}>
        {mark.words}
      </text>
    );
  const along = Math.atan2(toY - y, toX - x);
  const head = (turn: number) =>
    `${x + 34 * unit * Math.cos(along + turn)},${y + 34 * unit * Math.sin(along + turn)}`;
  return (
    <path
      className={className}
      d={`M${toX},${toY} L${x},${y} M${head(0.45)} L${x},${y} L${head(-0.45)}`}
    />
  );
}
