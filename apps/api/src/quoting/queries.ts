/** How a charge is priced: asked by whoever charges beside a quote. */
export { priceCharges, type WantedCharge } from './charges.ts';
/** What the shop's rates and taxes are on a day: asked by whoever prices, quotes or bills. */
export { type PriceList, priceList, type Tax } from './price-list.ts';
