/** What streams of all kinds follow. */
export type { News, ShopNews } from './shop-news.ts';
