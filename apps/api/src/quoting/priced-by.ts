import { formatMoney, currency as knownCurrency, minor } from '@fairlead/money';
import { sayDay } from '../given.ts';

interface Exact {
  toFixed(): string;
}

/** What a line was priced with, as it was kept with it. */
export interface PricedLine {
  charge: string | null;
  partId: string | null;
  hoursP50: unknown;
  pricing: string;
  pricedFrom: Date | null;
  workKind: string;
  unitCost: Exact | null;
  percent: Exact | null;
  capMinor: bigint | null;
}

/** By which rate, price, band or rule a line was priced, in a sentence; null where somebody named the price. */
export function pricedByWords(line: PricedLine, code: string): string | null {
  const { charge, partId, pricedFrom, workKind, unitCost, percent, capMinor } = line;
  const since = pricedFrom ? `, which holds from ${sayDay(pricedFrom)}` : '';
  if (charge === 'core')
    return 'By the core charge of the part; not billed when the old one comes back first.';
  if (charge === 'supplies' && percent) {
    const cap =
      capMinor === null
        ? ''
        : `, at most ${formatMoney(minor(capMinor), knownCurrency(code))} ${code}`;
    return `${percent.toFixed()} % of the likely labour${cap}${pricedFrom ? `, by the shop's rule${since}` : ''}.`;
  }
  if (partId && unitCost && percent)
    return `Cost ${unitCost.toFixed()} + ${percent.toFixed()} % by the band${since}.`;
  if (partId) return pricedFrom ? `At its price${since}.` : null;
  if (line.hoursP50 !== null && line.pricing !== 'fixed' && pricedFrom)
    return `At the ${workKind === '' ? 'general rate' : `rate for ${workKind}`}${since}.`;
  return null;
}
