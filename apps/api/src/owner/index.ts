/** What a mail with a private link needs: the link itself, and the words that its page shows. */

export { linkFor } from './link-for.ts';
export { loadOffer, wordsOf } from './offers.ts';
export { dayInWords } from './words-shown.ts';
