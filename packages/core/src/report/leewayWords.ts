import type { LeewayByTack, SolvedBoatFit, ToldNumber } from "../calibration/calibration.ts";
import { HALF_WIDTH_95, LEARNT, listed, plain } from "./format.ts";
import { amountText, intervalText } from "./settings.ts";

const TACKS = ["starboard", "port"] as const;

const coefficient = (of: ToldNumber): string =>
  of.informed >= LEARNT
    ? `${amountText(of.value, "leeway")} ${intervalText(of, "leeway")}`.replace(" deg·kn²/deg ±", " ±")
    : "not learnt";

const coefficients = (leeway: LeewayByTack): string =>
  listed(TACKS.map((tack) => `${coefficient(leeway[tack])} on ${tack} tack`));

function differenceText({ value, sd }: ToldNumber): string {
  const more = value < 0 ? "port" : "starboard";
  return `by ${plain(100 * Math.abs(value), 0)} % ± ${plain(100 * HALF_WIDTH_95 * sd, 0)} % more on ${more} tack`;
}

/**
 * M189. The leeway coefficient of each tack, and whether the two differ for real: sentences; none where leeway was left out. Never throws.
 */
export function leewayWords({ leewayByTack }: Pick<SolvedBoatFit, "leewayByTack">): readonly string[] {
  if (leewayByTack === undefined) return [];
  const { starboard, port, difference } = leewayByTack;
  const isTold = Math.max(starboard.informed, port.informed) >= LEARNT;
  const together = isTold
    ? [`Leeway coefficient by tack, found together with the heel zero: ${coefficients(leewayByTack)}.`]
    : [];
  return [...together, verdict(difference)];
}

function verdict(difference: ToldNumber): string {
  if (!(difference.informed >= LEARNT))
    return "Whether leeway differs between the tacks was not learnt: reckon with one coefficient.";
  const text = differenceText(difference);
  return Math.abs(difference.value) > HALF_WIDTH_95 * difference.sd
    ? `Leeway differs between the tacks for real, ${text}: waves that meet her on one tack and pass her on the other do that for a day, a keel or rudder off the centreline on every day. One coefficient is set for both, their mean.`
    : `Leeway does not differ between the tacks beyond its doubt (${text}): reckon with one coefficient.`;
}
