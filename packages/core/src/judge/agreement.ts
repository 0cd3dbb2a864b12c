/** One of the three agreements: how far the true wind disagrees with itself. */
export interface Agreement {
  readonly kind: "direction between tacks" | "direction upwind against downwind" | "speed between tacks";
  /** rad (starboard less port; upwind less downwind), or ln of the speed ratio starboard / port; NaN: none. */
  readonly value: number;
  /** Standard error, wander of the wind included. */
  readonly sd: number;
  /** Contrasts (tacks, gybes, mark roundings) that it rests on. */
  readonly contrasts: number;
}

export type Agreements = readonly [Agreement, Agreement, Agreement];
