'use client';

import { useSearchParams } from 'next/navigation';

/** What the comparison is narrowed to. Kept in the address, so that a link shows what was seen. */
export interface HoursFilter {
  task?: string;
  model?: string;
  from?: string;
  to?: string;
}

const keys = ['task', 'model', 'from', 'to'] as const;

/** Reads a filter out of an address's questions; whatever else stands there is passed over. */
export function filterOf(asked: Pick<URLSearchParams, 'get'>): HoursFilter {
  const filter: HoursFilter = {};
  for (const key of keys) {
    const value = asked.get(key);
    if (value !== null) filter[key] = value;
  }
  return filter;
}

/** The address of the sheet with a filter. @example hoursAddress({ task: 'a b' }) // → '/hours?task=a+b' */
export function hoursAddress(filter: HoursFilter): string {
  const asked = new URLSearchParams();
  for (const key of keys) {
    const value = filter[key];
    if (value !== undefined) asked.set(key, value);
  }
  const text = asked.toString();
  return text === '' ? '/hours' : `/hours?${text}`;
}

export const useHoursFilter = (): HoursFilter =>
  filterOf(useSearchParams() ?? new URLSearchParams());

/** Narrows the comparison without asking the server for a page. */
export function narrowTo(filter: HoursFilter): void {
  window.history.pushState(null, '', hoursAddress(filter));
}
