'use client';

import dynamic from 'next/dynamic';

/** Every page carries what its not-found page needs, so that comes in a file of its own. */
export const NotFoundLate = dynamic(() => import('./no-such-sheet.tsx'));
