import { html, type Markup } from "@bothtacks/core/page";
import type { Undraw } from "../contract.ts";
import type { BenchState } from "./bench.ts";

/** A part of the page: its element, and what it does with each new state. */
export interface Part<State = BenchState> {
  readonly element: HTMLElement;
  readonly update: (state: State) => void;
  readonly undraw?: Undraw;
}

/** A heading with what stands below it. Never throws. */
export const headed = (id: string, title: string, body: Markup): Markup =>
  html`<h2 id="${id}">${title}</h2>${body}`;

/**
 * What a part does only when what it is drawn from has changed, told by identity.
 *
 * @param of what of the state the part is drawn from
 * @param draw draws it
 */
export function whenChanged<Value, State = BenchState>(
  of: (state: State) => Value,
  draw: (value: Value, state: State) => void,
): (state: State) => void {
  let drawn: { readonly value: Value } | undefined;
  return (state) => {
    const value = of(state);
    if (drawn && drawn.value === value) return;
    drawn = { value };
    draw(value, state);
  };
}
