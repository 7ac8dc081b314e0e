import { globalId } from '../ids.ts';
import type { PhotoSize } from './picture.ts';

/** The address of a photo on the web origin. */
export const photoUrl = (id: string, size: PhotoSize) => `/photos/${globalId('Photo', id)}/${size}`;
