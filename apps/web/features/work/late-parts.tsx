'use client';

import { lazy } from 'react';

/** Parts of sheets that come after them; apart from the sheets, which use them. */
const forgottenClock = () => import('./ForgottenClock.tsx');
const supervisorFirst = () => import('./SupervisorFirst.tsx');
const clockStrip = () => import('./ClockStrip.tsx');

export const SupervisorFirst = lazy(() =>
  supervisorFirst().then(({ SupervisorFirst }) => ({ default: SupervisorFirst })),
);
/** A list without its questions, or a sheet without its strip, is better than none. */
export const MyForgottenClock = lazy(() =>
  forgottenClock()
    .then(({ MyForgottenClock }) => ({ default: MyForgottenClock }))
    .catch(() => ({ default: () => null })),
);
export const ClockStrip = lazy(() =>
  clockStrip()
    .then(({ ClockStrip }) => ({ default: ClockStrip }))
    .catch(() => ({ default: () => null })),
);

/** All of them at once, so that they are here when the network goes. */
export const fetchLateParts = (): Promise<unknown> =>
  Promise.allSettled([forgottenClock(), supervisorFirst(), clockStrip()]);
