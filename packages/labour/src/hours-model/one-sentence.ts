import type { Reason } from '../reasons.ts';

const oneDecimal = (hours: number): string => `${hours.toFixed(1)} h`;
const times = (factor: number): string => `×${factor.toFixed(2)}`;
/** A factor that prints as ×1.00 explains nothing. */
const SEEN = 0.005;

function linkWords(kind: string, factor: number): string | undefined {
  switch (kind) {
    case 'shop':
      return `this shop takes ${times(factor)} of it`;
    case 'own-history':
      return `its own jobs here make it ${times(factor)}`;
    case 'place':
      return `this place makes it ${times(factor)}`;
    case 'mechanic':
      return `who does it makes it ${times(factor)}`;
    case 'aircraft':
      return `this aircraft makes it ${times(factor)}`;
    default:
      return undefined;
  }
}

/**
 * One sentence: why hours are what they are, for somebody who reads one. Names nobody.
 *
 * @param because reasons of an estimate, the start first
 * @returns undefined where no reason says where to start
 * @example oneSentence([{ kind: 'standard', hours: 2, sentence: '' }], { p50: 2, p90: 3 })
 *   // '2.0 h is the standard time: about 2.0 h, nine times in ten under 3.0 h.'
 */
export function oneSentence(
  because: readonly Pick<Reason, 'kind' | 'sentence'>[],
  { p50, p90 }: { readonly p50: number; readonly p90: number },
): string | undefined {
  const figures = because as readonly { kind: string; hours?: number; factor?: number }[];
  const start = figures.find(({ hours }) => typeof hours === 'number');
  if (start?.hours === undefined) return undefined;
  const from =
    start.kind === 'standard'
      ? 'is the standard time'
      : start.kind === 'shop-median'
        ? "is the middle of this shop's jobs"
        : 'is the middle of its own jobs here';
  const links = figures.flatMap(({ kind, factor }) =>
    factor === undefined || Math.abs(factor - 1) < SEEN ? [] : (linkWords(kind, factor) ?? []),
  );
  return `${[`${oneDecimal(start.hours)} ${from}`, ...links].join(', ')}: about ${oneDecimal(p50)}, nine times in ten under ${oneDecimal(p90)}.`;
}
