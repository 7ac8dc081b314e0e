'use client';

import {
  type MouseEvent,
  type PointerEvent,
  type RefObject,
  useEffect,
  useMemo,
  useRef,
} from 'react';
import type { ArrowKey, Carried, PlanPoint } from './carry.ts';
import { nextTarget } from './carry.ts';
import type { CarryStore } from './carry-store.ts';
import type { Floor } from './floor-documents.ts';

/** Less than this is a press that trembled, not a drag; a finger trembles more. */
const TREMBLE = { mouse: 4, pen: 6, touch: 9 };

/** How the plan lies on the screen: where its origin is, and how many pixels a metre has. */
export interface OnScreen {
  left: number;
  top: number;
  perMetre: number;
}

/** What one pointer that was pressed on an aircraft is doing. */
interface Press {
  pointerId: number;
  at: PlanPoint;
  /** From the aircraft's middle to where it was taken hold of, metres. */
  grip: PlanPoint;
  what: Carried;
  moving: boolean;
}

export interface Carrying {
  /** Handlers for the element by which an aircraft is taken. `middle`: where it is drawn; null: it is not. */
  handlers(what: Carried, middle: PlanPoint | null): object;
  /** The layer that follows the hand. */
  ghost: RefObject<HTMLDivElement | null>;
  plan: RefObject<HTMLDivElement | null>;
}

/**
 * Taking, carrying and letting go of an aircraft with mouse, pen, finger or keys. A move writes one transform, once a
 * frame, on a layer of its own: the drawing under it is neither rendered, laid out nor painted again.
 */
export function useCarrying(
  store: CarryStore,
  floor: Floor,
  { margin, boxWidth }: { margin: number; boxWidth: number },
): Carrying {
  const plan = useRef<HTMLDivElement>(null);
  const ghost = useRef<HTMLDivElement>(null);
  const latest = useRef(floor);
  useEffect(() => {
    latest.current = floor;
  }, [floor]);

  const hand = useMemo(() => {
    let press: Press | null = null;
    let screen: OnScreen | null = null;
    let last: { x: number; y: number } | null = null;
    let frame = 0;
    let swallowClick = false;

    const onScreen = (): OnScreen => {
      if (screen === null) {
        const { left, top, width } = plan.current?.getBoundingClientRect() ?? new DOMRect();
        const perMetre = width / boxWidth;
        screen = { left: left + margin * perMetre, top: top + margin * perMetre, perMetre };
      }
      return screen;
    };
    const pointAt = ({ x, y }: { x: number; y: number }): PlanPoint => {
      const { left, top, perMetre } = onScreen();
      return { x: (x - left) / perMetre, y: (y - top) / perMetre };
    };
    const follow = () => {
      frame = 0;
      if (press === null || last === null) return;
      const held = pointAt(last);
      const middle = { x: held.x - press.grip.x, y: held.y - press.grip.y };
      store.hold(middle);
      const { perMetre } = onScreen();
      // The layer appears with the first target; until React has drawn it there is nothing to move.
      if (ghost.current !== null)
        ghost.current.style.transform = `translate(${middle.x * perMetre}px, ${middle.y * perMetre}px)`;
    };
    const end = () => {
      cancelAnimationFrame(frame);
      frame = 0;
      press = null;
      last = null;
    };
    return {
      /** Scrolled or resized: the plan lies elsewhere. */
      measureAgain: () => {
        screen = null;
        if (press?.moving) frame ||= requestAnimationFrame(follow);
      },
      pointAt,
      drop: end,
      down(event: PointerEvent<HTMLElement>, what: Carried, middle: PlanPoint | null) {
        if (!event.isPrimary || event.button !== 0) return;
        screen = null;
        swallowClick = false;
        const at = { x: event.clientX, y: event.clientY };
        const held = pointAt(at);
        const grip =
          middle === null ? { x: 0, y: 0 } : { x: held.x - middle.x, y: held.y - middle.y };
        press = { pointerId: event.pointerId, at, grip, what, moving: false };
        event.currentTarget.setPointerCapture(event.pointerId);
      },
      move(event: PointerEvent<HTMLElement>) {
        if (press === null || event.pointerId !== press.pointerId) return;
        last = { x: event.clientX, y: event.clientY };
        if (!press.moving) {
          const tremble = TREMBLE[event.pointerType as keyof typeof TREMBLE] ?? TREMBLE.mouse;
          if (Math.hypot(last.x - press.at.x, last.y - press.at.y) < tremble) return;
          press.moving = true;
          swallowClick = true;
          store.take(press.what, 'pointer');
          plan.current?.scrollIntoView({ block: 'nearest' });
          screen = null;
        }
        frame ||= requestAnimationFrame(follow);
      },
      up(event: PointerEvent<HTMLElement>) {
        if (press === null || event.pointerId !== press.pointerId) return;
        const { moving } = press;
        if (moving) {
          last = { x: event.clientX, y: event.clientY };
          follow();
        }
        end();
        if (moving) store.put();
      },
      /** The browser took the pointer away, or the aircraft went off the drawing. */
      lost(event: PointerEvent<HTMLElement>) {
        if (press === null || event.pointerId !== press.pointerId) return;
        const { moving } = press;
        end();
        if (moving) store.back();
      },
      click(what: Carried, byKey: boolean) {
        if (swallowClick && !byKey) {
          swallowClick = false;
          return;
        }
        const state = store.state();
        if (state.step === 'carried') store.put();
        else {
          store.take(what, 'keys');
          plan.current?.scrollIntoView({ block: 'nearest' });
        }
      },
    };
  }, [store, margin, boxWidth]);

  useEffect(() => {
    const keys = (event: KeyboardEvent) => {
      const state = store.state();
      if (state.step !== 'carried') return;
      if (event.key === 'Escape') {
        event.preventDefault();
        hand.drop();
        store.back();
      } else if (event.key.startsWith('Arrow')) {
        event.preventDefault();
        store.aim(nextTarget(latest.current, state.target, event.key as ArrowKey));
      } else if (event.key === 'Enter') {
        // Wherever the focus is: an aircraft in hand is put down, and no button is pressed by the way. A key that is
        // held down since it took the aircraft puts nothing.
        event.preventDefault();
        if (!event.repeat) store.put();
      }
    };
    // Taken by a press: the next press on the plan says where it goes.
    const chosen = (event: globalThis.PointerEvent) => {
      const state = store.state();
      const on = event.target instanceof Node && plan.current?.contains(event.target);
      if (!on || state.step !== 'carried' || state.by !== 'keys') return;
      event.preventDefault();
      event.stopPropagation();
      swallowNextClick();
      hand.measureAgain();
      store.hold(hand.pointAt({ x: event.clientX, y: event.clientY }));
      store.put();
    };
    const moved = () => hand.measureAgain();
    window.addEventListener('keydown', keys, true);
    window.addEventListener('pointerdown', chosen, true);
    window.addEventListener('scroll', moved, { capture: true, passive: true });
    window.addEventListener('resize', moved);
    return () => {
      window.removeEventListener('keydown', keys, true);
      window.removeEventListener('pointerdown', chosen, true);
      window.removeEventListener('scroll', moved, true);
      window.removeEventListener('resize', moved);
      hand.drop();
    };
  }, [store, hand]);

  return useMemo(
    () => ({
      ghost,
      plan,
      handlers: (what: Carried, middle: PlanPoint | null) => ({
        onPointerDown: (event: PointerEvent<HTMLElement>) => hand.down(event, what, middle),
        onPointerMove: hand.move,
        onPointerUp: hand.up,
        onPointerCancel: hand.lost,
        onLostPointerCapture: hand.lost,
        onClick: (event: MouseEvent<HTMLElement>) => hand.click(what, event.detail === 0),
      }),
    }),
    [hand],
  );
}

/** The press that said where it goes must not also press the aircraft or the link that lies there. */
function swallowNextClick(): void {
  const swallow = (event: Event) => {
    event.preventDefault();
    event.stopPropagation();
  };
  window.addEventListener('click', swallow, { capture: true, once: true });
  setTimeout(() => window.removeEventListener('click', swallow, true), 600);
}
