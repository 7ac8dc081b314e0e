import type { CSSProperties } from 'react';
import {
  percent,
  type Quantity,
  quantityText,
  type Scale,
  type Unit,
} from '../lib/figures/quantity.ts';
import styles from './LongDimension.module.css';
import { At, End } from './marks.tsx';

interface Mark {
  key: 'firm' | 'likely' | 'nine' | 'ceiling';
  words: string;
  value: Quantity;
}

/**
 * A total as one long dimension: what is firm as a heavy line, then up to where nine in ten should
 * come out under, with the owner's ceiling where there is one. A total that may pass the ceiling
 * says so in words as well as in red oxide.
 */
export function LongDimension({
  label,
  unit,
  firm,
  likely,
  nineInTen,
  ceiling,
}: {
  label: string;
  unit: Unit;
  firm: Quantity;
  /** As likely over as under. */
  likely: Quantity;
  nineInTen: Quantity;
  ceiling?: Quantity;
}) {
  const largest = Math.max(Number(nineInTen), Number(ceiling ?? 0));
  const scale: Scale = { from: 0, to: largest === 0 ? 1 : largest * 1.04 };
  const at = (value: Quantity) => `${percent(value, scale)}%`;
  const over = ceiling !== undefined && nineInTen > ceiling;
  const allFirm = firm === nineInTen;
  // What is firm or agreed is an account, to the cent as it is printed and billed; the rest is an estimate.
  const finenessOf = (key: Mark['key']) => (key === 'nine' ? 'estimate' : 'exact');
  const marks: Mark[] = [{ key: 'firm', words: 'firm', value: firm }];
  if (!allFirm) {
    marks.push({ key: 'nine', words: 'nine in ten should come out under', value: nineInTen });
  }
  if (ceiling !== undefined) {
    marks.push({
      key: 'ceiling',
      words: over ? 'agreed ceiling, may be passed' : 'agreed ceiling',
      value: ceiling,
    });
  }
  const levels = inLevels(marks, scale);
  return (
    <figure className={styles.figure}>
      <figcaption className={styles.caption}>
        <span>{label}</span>
        <b>
          {quantityText(likely, unit, allFirm ? 'exact' : 'estimate')}{' '}
          <small>{allFirm ? `${unit}, firm` : `${unit}, as likely over as under`}</small>
        </b>
      </figcaption>
      <svg className={styles.drawing} aria-hidden="true">
        <line className={styles.base} x1="0" x2="100%" y1="24" y2="24" />
        <line x1="0" x2={at(firm)} y1="24" y2="24" stroke="currentColor" strokeWidth="2" />
        <line
          x1={at(firm)}
          x2={at(nineInTen)}
          y1="24"
          y2="24"
          stroke="currentColor"
          strokeDasharray="6 4"
        />
        <End x="0" y="24" up={10} down={16} />
        <End x={at(firm)} y="24" up={10} down={16} />
        <End x={at(nineInTen)} y="24" up={10} down={16} />
        <At x={at(likely)} y="24">
          <path d="M0-14V14" stroke="currentColor" strokeWidth="2" />
        </At>
        {ceiling === undefined ? null : (
          <At x={at(ceiling)} y="24">
            <g className={over ? styles.over : undefined}>
              <path d="M0-20V16" stroke="currentColor" strokeWidth="2" />
              <path d="M0-20H-9M0-15H-9M0-10H-9" stroke="currentColor" />
            </g>
          </At>
        )}
      </svg>
      <ul className={styles.marks}>
        {levels.map((mark, index) => {
          const place = percent(mark.value, scale);
          return (
            <li
              className={`${styles.mark} ${mark.key === 'ceiling' && over ? styles.over : ''}`}
              key={mark.key}
              data-turn={place > 50 ? '' : undefined}
              style={{ '--at': `${place}%` } as CSSProperties}
            >
              {levels.slice(index).map((lower) => (
                <span
                  key={lower.key}
                  className={styles.leader}
                  data-own={lower.key === mark.key ? '' : undefined}
                  style={{ left: `${percent(lower.value, scale)}%` }}
                  aria-hidden="true"
                />
              ))}
              <span className={styles.words}>
                <span className={styles.interrupting}>
                  {mark.words}{' '}
                  <span className={styles.value}>
                    {quantityText(mark.value, unit, finenessOf(mark.key))}
                    <span className="spoken"> {unit}</span>
                  </span>
                </span>
              </span>
            </li>
          );
        })}
      </ul>
    </figure>
  );
}

/**
 * The order in which words hang under the line. Those left of the middle run to the right and those
 * right of it to the left, so the ones nearest the middle come first and no leader meets other words.
 */
function inLevels(marks: readonly Mark[], scale: Scale): readonly Mark[] {
  const fromMiddle = (mark: Mark) => Math.abs(percent(mark.value, scale) - 50);
  return marks.toSorted((a, b) => fromMiddle(a) - fromMiddle(b));
}
