'use client';

import { lazy } from 'react';

/** The tables weigh as much as a photo's thumbnail: they come after the page, and are kept for when the network goes. */
const whatSeen = () => import('./what-seen.tsx');
const steps = () => import('./symptom-steps.tsx');

export const WhatSeen = lazy(() => whatSeen().then(({ WhatSeen }) => ({ default: WhatSeen })));
export const SymptomSteps = lazy(() =>
  steps().then(({ SymptomSteps }) => ({ default: SymptomSteps })),
);
export const fetchDiagnosis = (): Promise<unknown> => Promise.allSettled([whatSeen(), steps()]);
