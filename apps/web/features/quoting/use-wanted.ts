import { useState } from 'react';
import type { ChargeKind } from '../../graphql/generated/graphql.ts';
import { minorFrom } from './amount-field.ts';

export interface WantedTask {
  id: string;
  title: string;
  jasc: string;
  /** Left out: by time and materials. */
  sold?: SoldTyped;
}

/** How a task is sold, and its price or limit as typed: it may be on its way to an amount. */
export interface SoldTyped {
  pricing: 'fixed' | 'not_to_exceed';
  price: string;
}

export interface WantedPart {
  id: string;
  number: string;
  title: string;
  unit: string;
  /** As typed: it may be on its way to a number. */
  quantity: string;
}

/** A charge beside work and parts, with amounts as typed; empty: not given. */
export interface WantedCharge {
  /** Made by this page. */
  id: string;
  kind: ChargeKind;
  title: string;
  price: string;
  cost: string;
  percent: string;
  atMost: string;
}

/** What somebody wants quoted, before it is a quote. */
export interface Wanted {
  aircraftId: string;
  contactId: string;
  /** Empty: not asked yet; `NO_PACKAGE`: none is wanted. */
  packageId: string;
  findingId: string;
  tasks: readonly WantedTask[];
  parts: readonly WantedPart[];
  charges: readonly WantedCharge[];
}

export const NO_PACKAGE = 'none';

export const nothingWanted: Wanted = {
  aircraftId: '',
  contactId: '',
  packageId: '',
  findingId: '',
  tasks: [],
  parts: [],
  charges: [],
};

const quantityText = /^\d{1,5}(\.\d{1,3})?$/;

/** A quantity that the API takes: above 0, at most three decimals. */
export const usableQuantity = (text: string) => quantityText.test(text) && Number(text) > 0;

/** A price or a limit that the API takes: an amount above 0; null where it is none yet. */
export function priceOf(sold: SoldTyped, currency: string): bigint | null {
  const price = minorFrom(sold.price, currency);
  return price === 0n ? null : price;
}

/** Whether everything typed can be read, so that what is kept is what was meant. */
export const allPricesRead = ({ tasks }: Pick<Wanted, 'tasks'>, currency: string): boolean =>
  tasks.every(({ sold }) => sold === undefined || priceOf(sold, currency) !== null);

/** What the API is asked for; parts whose quantity cannot be read yet are left out, prices that cannot stay open. */
export function linesAsked(
  { tasks, parts, charges }: Pick<Wanted, 'tasks' | 'parts' | 'charges'>,
  currency: string,
) {
  const amount = (typed: string) => (typed === '' ? null : `${minorFrom(typed, currency) ?? ''}`);
  return {
    charges: charges.map(({ kind, title, price, cost, percent, atMost }) => ({
      kind,
      title: title === '' ? null : title,
      price: amount(price),
      cost: amount(cost),
      percent: percent === '' ? null : percent,
      atMost: amount(atMost),
    })),
    tasks: tasks.map(({ id, sold }) => {
      const price = sold === undefined ? null : priceOf(sold, currency);
      return sold === undefined || price === null
        ? { taskId: id }
        : { taskId: id, pricing: sold.pricing, price: `${price}` };
    }),
    parts: parts
      .filter(({ quantity }) => usableQuantity(quantity))
      .map(({ id, quantity }) => ({ partId: id, quantity })),
  };
}

/** The forecast's input; null while there is nothing to forecast. */
export function forecastAsked(wanted: Wanted, packageTasks: number, currency: string) {
  const { aircraftId, contactId, packageId, findingId } = wanted;
  const lines = linesAsked(wanted, currency);
  if (aircraftId === '' || lines.tasks.length + packageTasks === 0) return null;
  return {
    aircraftId,
    contactId: contactId === '' ? null : contactId,
    packageId: packageId === '' || packageId === NO_PACKAGE ? null : packageId,
    findingId: findingId === '' ? null : findingId,
    ...lines,
  };
}

/** Keeps what is wanted, and changes a part of it at a time. */
export function useWanted(start: Wanted) {
  const [wanted, setWanted] = useState(start);
  const change = (part: Partial<Wanted>) => setWanted((before) => ({ ...before, ...part }));
  return {
    wanted,
    change,
    addTask: (task: WantedTask) =>
      setWanted((before) =>
        before.tasks.some(({ id }) => id === task.id)
          ? before
          : { ...before, tasks: [...before.tasks, task] },
      ),
    addPart: (part: WantedPart) =>
      setWanted((before) =>
        before.parts.some(({ id }) => id === part.id)
          ? before
          : { ...before, parts: [...before.parts, part] },
      ),
    addCharge: (charge: WantedCharge) =>
      setWanted((before) => ({ ...before, charges: [...before.charges, charge] })),
    /** Undefined: by time and materials. */
    sell: (taskId: string, sold: SoldTyped | undefined) =>
      setWanted((before) => ({
        ...before,
        tasks: before.tasks.map(({ sold: was, ...task }) =>
          task.id === taskId
            ? { ...task, ...(sold && { sold }) }
            : { ...task, ...(was && { sold: was }) },
        ),
      })),
    setQuantity: (partId: string, quantity: string) =>
      setWanted((before) => ({
        ...before,
        parts: before.parts.map((part) => (part.id === partId ? { ...part, quantity } : part)),
      })),
    remove: (ids: readonly string[]) => {
      const stays = ({ id }: { id: string }) => !ids.includes(id);
      setWanted((before) => ({
        ...before,
        tasks: before.tasks.filter(stays),
        parts: before.parts.filter(stays),
        charges: before.charges.filter(stays),
      }));
    },
  };
}
