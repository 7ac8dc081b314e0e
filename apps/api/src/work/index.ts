/** How a kept photo is found and sent: asked by whoever shows one. */

/** Whether parts take an order past what its owner agreed to: asked by the stores. */
export { type BeyondWithPart, beyondWithParts, comingLot } from './beyond-with-part.ts';
/** What a change of something on a visit is held against: asked by whoever records what is done to an aircraft. */
export { itemForChange, needState, refuseOutsideVisit } from './item-for-change.ts';
export { clientId, deviceTime } from './limits.ts';
export { photoFile } from './photo-files.ts';
export { markingsSelect, marksOf, type PhotoMark } from './photo-marks.ts';
export { photoPairs } from './photo-pairs.ts';
export { sendPhoto } from './photo-routes.ts';
export { type PhotoSize, photoSizes } from './picture.ts';
