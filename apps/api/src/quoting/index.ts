/** What the owner's page needs of quoting: who may say yes, how an answer is kept and said. */

export { type ContactStanding, contactStanding } from './contact-standing.ts';
export { draftQuote } from './draft-quote.ts';
export { withFindingsOf } from './likely-findings.ts';
export { holdQuote } from './newest-revision.ts';
export { expiryOf } from './offer-terms.ts';
export { reviseQuote } from './revise-quote.ts';
export { sayAmount, sayDecision } from './say-decision.ts';
export { soldByTime } from './sold.ts';
export { takeDecision } from './take-decision.ts';
export { wantedAgain } from './wanted-again.ts';
