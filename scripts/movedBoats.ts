/**
 * Boats fitted on two days, as they were and with one sensor moved in between: what `compare` says of them (M64, M80, M81).
 * node --conditions=bothtacks-source --import tsx scripts/movedBoats.ts FIRST_SEED [BOATS]
 */
import { hasMoved } from "../packages/core/src/judge/compare.ts";
import { parameterAmount } from "../packages/core/src/report/parameterAmounts.ts";
import { type TwoDays, twoDays } from "../tests/support/movedBoats.ts";

const first = Number(process.argv[2]);
const count = Number(process.argv[3] ?? 20);
if (!Number.isInteger(first) || !Number.isInteger(count))
  throw new RangeError("give the first seed, and how many boats");

const said = (moved: readonly { readonly name: string }[], restIsReal: boolean): string =>
  [...moved.map(({ name }) => name), ...(restIsReal ? ["something"] : [])].join(", ") || "nothing";

const tried = Array.from({ length: count }, (_, index) => twoDaysOrReason(first + index));

function twoDaysOrReason(seed: number): TwoDays | undefined {
  try {
    return shown(twoDays(seed));
  } catch (error) {
    console.log(`${seed}: ${String(error)}`);
    return undefined;
  }
}

function shown(boat: TwoDays): TwoDays {
  const { seed, unmoved, moves, by, moved } = boat;
  console.log(
    `${seed}: unmoved: ${said(unmoved.moved, unmoved.restIsReal)} (p ${unmoved.joint.probability.toFixed(3)}); ${moves} moved by ${parameterAmount(moves, by)}: ${said(moved.moved, moved.restIsReal)}`,
  );
  return boat;
}

const boats = tried.filter((boat) => boat !== undefined);
const share = (holds: (boat: TwoDays) => boolean): string =>
  `${boats.filter(holds).length} of ${boats.length}`;
console.log(`false alarms: ${share(({ unmoved }) => hasMoved(unmoved))}`);
console.log(`moved and found: ${share(({ moved }) => hasMoved(moved))}`);
console.log(
  `named, or named as what it could be instead: ${share(({ moves, moved }) =>
    moved.moved.some(({ name, orElse }) => name === moves || orElse.some((or) => or.name === moves)),
  )}`,
);
