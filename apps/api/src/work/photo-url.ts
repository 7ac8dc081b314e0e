import { globalId } from '../ids.ts';
import type { PhotoSize } from './picture.ts';

/** The address of a photo on the web origin: another while only its preview is here, so that pages ask again then. */
export const photoUrl = ({ id, preview }: { id: string; preview: boolean }, size: PhotoSize) =>
  `/photos/${globalId('Photo', id)}/${size}${preview ? '?preview' : ''}`;
