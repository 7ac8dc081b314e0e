/** What the shop's rates and taxes are on a day: asked by whoever prices, quotes or bills. */
export { type PriceList, priceList, type Tax } from './price-list.ts';
