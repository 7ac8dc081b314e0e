/** How a kept photo is found and sent: asked by whoever shows one. */
export { photoFile } from './photo-files.ts';
export { sendPhoto } from './photo-routes.ts';
export { type PhotoSize, photoSizes } from './picture.ts';
