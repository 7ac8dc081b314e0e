import { type Minor, minor, nothing } from './amount.ts';
import { coreOwed } from './core-owed.ts';
import { exact } from './exact.ts';

/** A core as an invoice charged for it, and what became of it since. */
export interface CoreBilled {
  /** For one unit, minor units; 0 or more. */
  readonly charge: Minor;
  /** Units billed. A plain decimal. */
  readonly billed: string;
  /** What of them was really asked for, net: less than units × charge where something was held back. */
  readonly billedNet: Minor;
  /** Units still owed now. A plain decimal. */
  readonly owed: string;
  /** Units that were credited before. A plain decimal. */
  readonly credited: string;
  /** What was credited for them, net, above 0. */
  readonly creditedNet: Minor;
}

export interface CoreCredit {
  /** Units that came back and are not credited yet. A plain decimal. */
  readonly quantity: string;
  /** To be given back, net. */
  readonly amount: Minor;
}

/**
 * What is to be given back of a core's charge that was billed, since the old one came.
 *
 * Formula: quantity = max(0, billed − owed − credited); amount = billed net − min(billed net, owed × charge) − credited net,
 * never below 0, so that what stays charged is what is still owed and no more (core charges are common practice, no source).
 *
 * @throws RangeError for text that is no decimal, a quantity below 0, or a charge below 0
 * @example coreCredit({ charge: minor(25000n), billed: '2', billedNet: minor(50000n), owed: '1', credited: '0', creditedNet: nothing }) // → { quantity: '1', amount: 25000n }
 * @example coreCredit({ charge: minor(25000n), billed: '2', billedNet: minor(50000n), owed: '2', credited: '0', creditedNet: nothing }) // → { quantity: '0', amount: 0n }
 */
export function coreCredit(core: CoreBilled): CoreCredit {
  const { charge, billed, billedNet, owed, credited, creditedNet } = core;
  const stays = coreOwed({ charge, taken: owed, returned: '0', handedOver: '0' }).amount;
  const came = exact(billed, 'units billed')
    .minus(exact(owed, 'units owed'))
    .minus(exact(credited, 'units credited'));
  if (came.lte(0)) return { quantity: '0', amount: nothing };
  const left = billedNet - (stays < billedNet ? stays : billedNet) - creditedNet;
  return { quantity: came.toFixed(), amount: minor(left > 0n ? left : 0n) };
}
