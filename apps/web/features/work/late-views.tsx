'use client';

import { lazy } from 'react';
import { fetchDiagnosis } from '../diagnosis/late-diagnosis.tsx';
import { fetchLateParts } from './late-parts.tsx';

/** What the list of the bench does not need comes after it: forms, photos and drawings of aircraft. */
const itemSheet = () => import('./ItemSheet.tsx');
const foundSheet = () => import('./FoundSheet.tsx');
const findingSheet = () => import('./FindingSheet.tsx');
const orderSheet = () => import('./OrderSheet.tsx');
const photos = () => import('./PhotosOnTheWay.tsx');

export const ItemSheet = lazy(() => itemSheet().then(({ ItemSheet }) => ({ default: ItemSheet })));
export const FoundSheet = lazy(() =>
  foundSheet().then(({ FoundSheet }) => ({ default: FoundSheet })),
);
export const FindingSheet = lazy(() =>
  findingSheet().then(({ FindingSheet }) => ({ default: FindingSheet })),
);
export const OrderSheet = lazy(() =>
  orderSheet().then(({ OrderSheet }) => ({ default: OrderSheet })),
);
/** A list without its photos is better than none, should the line break before they are here. */
export const PhotosOnTheWay = lazy(() =>
  photos()
    .then(({ PhotosOnTheWay }) => ({ default: PhotosOnTheWay }))
    .catch(() => ({ default: () => null })),
);

/** All of them at once, so that they are here when the network goes. */
export const fetchLateViews = (): Promise<unknown> =>
  Promise.allSettled([
    itemSheet(),
    foundSheet(),
    findingSheet(),
    orderSheet(),
    photos(),
    fetchLateParts(),
    fetchDiagnosis(),
    import('./send-change.ts'),
  ]);
