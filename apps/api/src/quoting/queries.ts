/** How a charge is priced: asked by whoever charges beside a quote. */
export { priceCharges, type WantedCharge } from './charges.ts';
/** What the shop's rates, prices and taxes are on a day: asked by whoever prices, quotes or bills. */
export { coreTitle } from './core-title.ts';
export { endedWords, exemptionsOf, exemptionsOfEach, type Taxed } from './exemptions.ts';
export { GENERAL, type LabourRateOnDay, labourRatesOn } from './labour-rates.ts';
export { markUpOn } from './mark-up-on.ts';
export { type PriceList, priceList, type Tax } from './price-list.ts';
