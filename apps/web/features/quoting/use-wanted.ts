import { useState } from 'react';

export interface WantedTask {
  id: string;
  title: string;
  jasc: string;
}

export interface WantedPart {
  id: string;
  number: string;
  title: string;
  unit: string;
  /** As typed: it may be on its way to a number. */
  quantity: string;
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
}

export const NO_PACKAGE = 'none';

export const nothingWanted: Wanted = {
  aircraftId: '',
  contactId: '',
  packageId: '',
  findingId: '',
  tasks: [],
  parts: [],
};

const quantityText = /^\d{1,5}(\.\d{1,3})?$/;

/** A quantity that the API takes: above 0, at most three decimals. */
export const usableQuantity = (text: string) => quantityText.test(text) && Number(text) > 0;

/** What the API is asked for; parts whose quantity cannot be read yet are left out. */
export function linesAsked({ tasks, parts }: Pick<Wanted, 'tasks' | 'parts'>) {
  return {
    tasks: tasks.map(({ id }) => ({ taskId: id })),
    parts: parts
      .filter(({ quantity }) => usableQuantity(quantity))
      .map(({ id, quantity }) => ({ partId: id, quantity })),
  };
}

/** The forecast's input; null while there is nothing to forecast. */
export function forecastAsked(wanted: Wanted, packageTasks: number) {
  const { aircraftId, packageId, findingId } = wanted;
  const lines = linesAsked(wanted);
  if (aircraftId === '' || lines.tasks.length + packageTasks === 0) return null;
  return {
    aircraftId,
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
    setQuantity: (partId: string, quantity: string) =>
      setWanted((before) => ({
        ...before,
        parts: before.parts.map((part) => (part.id === partId ? { ...part, quantity } : part)),
      })),
    remove: (id: string) =>
      setWanted((before) => ({
        ...before,
        tasks: before.tasks.filter((task) => task.id !== id),
        parts: before.parts.filter((part) => part.id !== id),
      })),
  };
}
