import { decimalText, type Estimate, hoursText, moneyText } from './figures.ts';
import type { Row } from './table.ts';

export interface Hours {
  p10: number;
  p50: number;
  p80: number;
  p90: number;
}

export interface Amounts {
  low: string;
  likely: string;
  p80: string;
  high: string;
}

export interface Line extends Amounts {
  position: number;
  pricing: 'fixed' | 'time_and_materials' | 'not_to_exceed';
  limit: string | null;
  charge: string | null;
  title: string;
  quantity: string;
  unitPrice: string;
  task: { id: string; cautions: string[] } | null;
  part: { number: string; unit: string } | null;
  hours: Hours | null;
}

export const hoursOf = ({ p10, p50, p80, p90 }: Hours): Estimate => ({
  unit: 'h',
  p10,
  p50,
  p80,
  p90,
});

export const moneyOf = ({ low, likely, p80, high }: Amounts, currency: string): Estimate => ({
  unit: currency,
  p10: BigInt(low),
  p50: BigInt(likely),
  p80: BigInt(p80),
  p90: BigInt(high),
});

/** What does not depend on how long the work takes. */
export const firmOf = (lines: readonly Amounts[]): bigint =>
  lines.reduce((sum, { low, high, likely }) => (low === high ? sum + BigInt(likely) : sum), 0n);

const isFlat = ({ pricing, task, part, charge }: Line) =>
  pricing === 'fixed' && !task && !part && charge === null;
/** What is under a flat price has none of its own. */
const isUnderFlat = ({ pricing, task, part, likely }: Line) =>
  pricing === 'fixed' && task !== null && !part && BigInt(likely) === 0n;

const howSold: Record<Line['pricing'], string> = {
  fixed: 'flat price',
  time_and_materials: 'by time and materials',
  not_to_exceed: 'by time and materials, up to a limit that the shop keeps',
};

const soldWords = ({ pricing, limit, charge, task }: Line, currency: string) =>
  charge === 'core'
    ? 'not billed when the old one comes back first'
    : charge !== null || (pricing === 'fixed' && task !== null)
      ? 'at a fixed price'
      : limit === null
        ? howSold[pricing]
        : `by time and materials, not to exceed ${moneyText(BigInt(limit), currency)}: we carry the rest`;

/** So many tasks of a flat price stand one under the other; more stand in two columns, down the first and then the second. */
const ONE_COLUMN = 5;

/** The work under a flat price, without prices of its own. */
function underRows(lines: readonly Line[]): Row[] {
  const words = lines.map(
    ({ title, hours }) => `${title}${hours ? `, ${hoursText(hours.p50)} h` : ''}`,
  );
  const high = words.length > ONE_COLUMN ? Math.ceil(words.length / 2) : words.length;
  return words.slice(0, high).map((each, index) => ({
    under: true,
    wideFrom: 2,
    cells: ['', each, words[high + index] ?? '', ''],
  }));
}

/**
 * The lines as rows of a parts list: their number on the sheet, what, hours, price. Work under a flat price has no
 * price of its own and stands under it; where all is under it, the hours of the whole are its.
 */
export function rowsOf(lines: readonly Line[], currency: string, whole: Hours): Row[] {
  const byTime = lines.filter((line) => line.hours && !isUnderFlat(line) && !isFlat(line));
  const most = Math.max(
    0,
    ...(byTime.length === 0 ? [whole.p90] : byTime.map((line) => line.hours?.p90 ?? 0)),
  );
  const dearest = Math.max(0, ...lines.map(({ high }) => Number(high)));
  const rows: Row[] = [];
  let under: Line[] = [];
  let number = 0;
  for (const line of lines) {
    if (isUnderFlat(line)) {
      under.push(line);
      continue;
    }
    rows.push(...underRows(under));
    under = [];
    const note = line.part
      ? `${line.part.number} · ${decimalText(line.quantity, 0)} ${line.part.unit} at ${decimalText(line.unitPrice, 2)}`
      : soldWords(line, currency);
    const hours = isFlat(line) ? (byTime.length === 0 ? whole : null) : line.hours;
    number += 1;
    rows.push({
      cells: [
        { balloon: number },
        { text: line.title, note },
        hours ? { estimate: hoursOf(hours), most } : '',
        { estimate: moneyOf(line, currency), most: dearest },
      ],
    });
  }
  return [...rows, ...underRows(under)];
}
