/** How something is charged on an order: asked by whoever learns what it costs. */
export { keepOrderCharge } from './order-charges.ts';
