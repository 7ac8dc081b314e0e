import { type Carried, type PlanPoint, type Target, targetAt, targetKey } from './carry.ts';
import { type DrawnFloor, type Verdict, verdictsOn } from './verdict.ts';

export type CarryState =
  /** `said`: what became of the last one. */
  | { step: 'none'; said: string; refused: boolean }
  | { step: 'carried'; what: Carried; by: 'pointer' | 'keys'; target: Target | null }
  /** Let go: the form asks whether it is meant. Nothing is saved yet. */
  | { step: 'put'; what: Carried; target: Target };

const nothing: CarryState = { step: 'none', said: '', refused: false };

/**
 * What is in hand, outside of React: a pointer that moves a hundred times a second touches one element and this; only
 * the layer above the drawing and the words below it listen, and they hear of a new target, not of a new place.
 */
export class CarryStore {
  #state: CarryState = nothing;
  #drawn: DrawnFloor | null = null;
  #verdicts: ReadonlyMap<string, Verdict> = new Map();
  readonly #listeners = new Set<() => void>();

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };
  readonly state = (): CarryState => this.#state;

  /** The floor that is drawn now; verdicts are worked out on it when something is taken. */
  show(drawn: DrawnFloor): void {
    this.#drawn = drawn;
    if (this.#state.step !== 'none') this.#verdicts = verdictsOn(this.#state.what, drawn);
  }

  verdict(target: Target | null): Verdict | null {
    return this.#verdicts.get(targetKey(target)) ?? null;
  }

  take(what: Carried, by: 'pointer' | 'keys'): void {
    if (this.#drawn === null) return;
    this.#verdicts = verdictsOn(what, this.#drawn);
    const stand = this.#drawn.floor.stands.find(({ id }) => id === what.stay?.stand.id);
    const target = by === 'keys' && stand !== undefined ? { kind: 'stand' as const, stand } : null;
    this.#set({ step: 'carried', what, by, target });
  }

  /** Held over a point of the plan. */
  hold(point: PlanPoint): void {
    if (this.#drawn !== null) this.aim(targetAt(this.#drawn.floor, point));
  }

  aim(target: Target | null): void {
    const state = this.#state;
    if (state.step !== 'carried' || targetKey(state.target) === targetKey(target)) return;
    this.#set({ ...state, target });
  }

  /** Lets go. Where it cannot be, or is already, it goes back and the words say why. */
  put(): void {
    const state = this.#state;
    if (state.step !== 'carried') return;
    const verdict = this.verdict(state.target);
    if (state.target === null || verdict === null || verdict.kind === 'same') this.back();
    else if (verdict.kind === 'tight')
      this.#set({ step: 'none', said: verdict.sentence, refused: true });
    else this.#set({ step: 'put', what: state.what, target: state.target });
  }

  /** Puts it back where it was: nothing has happened. */
  back(): void {
    if (this.#state.step === 'none') return;
    const { aircraft } = this.#state.what;
    this.#set({
      step: 'none',
      said: `${aircraft.registration} is left as it was.`,
      refused: false,
    });
  }

  /** After it was saved, or the form was closed. */
  forget(): void {
    this.#set(nothing);
  }

  #set(state: CarryState): void {
    this.#state = state;
    for (const listener of this.#listeners) listener();
  }
}
