import type { Seconds } from "../units.ts";
import type { SourceRow } from "./inventoryPart.ts";
import { QUANTITIES, type QuantityName, type Source } from "./readings.ts";
import { type Candidate, type Rule, SOURCE_RULES } from "./sourceRules.ts";

/** A source and why it was chosen, or not. */
export interface JudgedSource {
  readonly source: Source;
  /** Its place among the recording's sources. */
  readonly index: number;
  /** Readings a second: Hz. */
  readonly rate: number;
  /** Words that follow a comma. */
  readonly why: string;
}

/** Which source was chosen for each quantity, and what was said of the others. */
export interface SourceChoice {
  readonly chosen: readonly JudgedSource[];
  readonly others: readonly JudgedSource[];
}

/** Names of sources that the user wants, by quantity. */
export type WantedSources = Partial<Readonly<Record<QuantityName, string>>>;

/** The two halves of one vector come from one instrument: the second quantity goes with the choice of the first. */
const GOES_WITH: Partial<Readonly<Record<QuantityName, readonly [quantity: QuantityName, words: string]>>> = {
  apparentWindSpeed: ["apparentWindAngle", "the wind angle"],
  speedOverGround: ["courseOverGround", "the course"],
  longitude: ["latitude", "the latitude"],
};

/** Computed on board from other readings: never taken for a measurement. */
const COMPUTED: ReadonlySet<QuantityName> = new Set<QuantityName>([
  "onboardTrueWindAngle",
  "onboardTrueWindSpeed",
  "onboardTrueWindDirection",
  "onboardTrueWindDirectionMagnetic",
  "leeway",
]);

/** Applies the rules one after the other: the one that is left, and for all why. */
function contest(candidates: readonly Candidate[]): SourceChoice {
  let left = candidates;
  let whyWon: string | undefined;
  const dropped: { readonly loser: Candidate; readonly rule: Rule }[] = [];
  for (const rule of SOURCE_RULES) {
    const kept = rule.keep(left);
    const losers = left.filter((candidate) => !kept.includes(candidate));
    dropped.push(...losers.map((loser) => ({ loser, rule })));
    if (kept.length > 0 && losers.length > 0) whyWon = rule.won(kept[0]!, losers[0]!);
    left = kept;
  }
  const [winner] = left;
  return {
    chosen: winner ? [judged(winner, whyWon ?? "the only source")] : [],
    others: dropped.map(({ loser, rule }) => judged(loser, rule.lost(loser, winner ?? loser))),
  };
}

const judged = ({ source, index, rate }: SourceRow, why: string): JudgedSource => ({
  source,
  index,
  rate,
  why,
});

/** The source with a name is chosen, whatever the rules. */
function byName(candidates: readonly Candidate[], name: string, why: string, whyNot: string): SourceChoice {
  const chosen = candidates.filter(({ source }) => source.name === name);
  const others = candidates.filter(({ source }) => source.name !== name);
  return {
    chosen: chosen.map((candidate) => judged(candidate, why)),
    others: others.map((candidate) => judged(candidate, whyNot)),
  };
}

function requireKnown(rows: readonly SourceRow[], wanted: WantedSources): void {
  for (const quantity of QUANTITIES) {
    const name = wanted[quantity];
    const names = rows.filter(({ source }) => source.quantity === quantity).map(({ source }) => source.name);
    if (name !== undefined && !names.includes(name))
      throw new RangeError(
        `chooseSources: wanted.${quantity} must be one of [${names.join(", ")}], got ${name}`,
      );
  }
}

/**
 * M34. The best source for each quantity, by rules in this order: no heading that is the course over ground · alive (not
 * silent, not frozen, not at 0) for most of the time · most readings a second · finest steps · the instrument itself
 * rather than one that passes its readings on · the first. Wind speed is taken from where the wind angle is, speed over
 * ground from where the course is. True wind computed on board is chosen for nothing.
 *
 * @param rows the recording's inventory
 * @param wanted sources to take by name, whatever the rules say
 * @param covered how much time the recording covers: unless told, from its first reading to its last
 * @returns the chosen and the others, each with why; in the order of `QUANTITIES`
 * @throws RangeError where a wanted source is not in the recording
 * @example
 * chooseSources([]).chosen // []
 */
export function chooseSources(
  rows: readonly SourceRow[],
  wanted: WantedSources = {},
  covered: Seconds = spanOf(rows),
): SourceChoice {
  requireKnown(rows, wanted);
  const candidates = rows.map((row) => ({ ...row, aliveShare: aliveSeconds(row) / covered }));
  const chosen: JudgedSource[] = [];
  const others: JudgedSource[] = [];
  for (const quantity of QUANTITIES) {
    const ofQuantity = candidates.filter(({ source }) => source.quantity === quantity);
    const choice = choiceOf(quantity, ofQuantity, chosen, wanted[quantity]);
    chosen.push(...choice.chosen);
    others.push(...choice.others);
  }
  return { chosen, others };
}

function choiceOf(
  quantity: QuantityName,
  candidates: readonly Candidate[],
  chosen: readonly JudgedSource[],
  wanted: string | undefined,
): SourceChoice {
  if (wanted !== undefined) return byName(candidates, wanted, "asked for", `${wanted} was asked for`);
  if (COMPUTED.has(quantity)) {
    const others = candidates.map((candidate) => judged(candidate, "computed on board: no measurement"));
    return { chosen: [], others };
  }
  const [leading, words] = GOES_WITH[quantity] ?? [];
  const name = chosen.find(({ source }) => source.quantity === leading)?.source.name;
  if (name !== undefined && candidates.length > 1 && candidates.some(({ source }) => source.name === name))
    return byName(candidates, name, `taken with ${words}`, `${name} is taken, with ${words}`);
  return contest(candidates);
}

function spanOf(rows: readonly SourceRow[]): Seconds {
  const timed = rows.filter(({ start }) => !Number.isNaN(start));
  return (
    timed.reduce((last, { end }) => Math.max(last, end), Number.NEGATIVE_INFINITY) -
    timed.reduce((first, { start }) => Math.min(first, start), Number.POSITIVE_INFINITY)
  );
}

const aliveSeconds = ({ heardSeconds, frozenSeconds, zeroSeconds }: SourceRow): Seconds =>
  heardSeconds - frozenSeconds - zeroSeconds;

/**
 * For each quantity the index of its chosen source. Never throws.
 *
 * @example
 * chosenIndices(chooseSources([])) // {}
 */
export const chosenIndices = ({ chosen }: SourceChoice): Partial<Readonly<Record<QuantityName, number>>> =>
  Object.fromEntries(chosen.map(({ source, index }) => [source.quantity, index]));
