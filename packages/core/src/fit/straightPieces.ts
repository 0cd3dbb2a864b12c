import { angleBetween, wrapDirection } from "../angles.ts";
import { type Radians, radians, type Seconds } from "../units.ts";
import { type Block, blocksOf, durationOf, type SecondUnderPower, turnOf } from "./circleBlocks.ts";
import type { RunPiece } from "./runsInLog.ts";

/** A block that turns faster is no part of a straight leg; nor one whose heading is this far from the block's before. */
const STRAIGHT_TURN = radians(0.5);
const STRAIGHT: Radians = radians(8);

/** A longer hole ends a leg. */
const HOLE: Seconds = 40;

const meanOf = (block: Block, of: (second: SecondUnderPower) => number): number =>
  block.reduce((sum, second) => sum + of(second), 0) / block.length;

const headingOf = (block: Block): Radians =>
  wrapDirection(
    Math.atan2(
      meanOf(block, ({ heading }) => Math.sin(heading)),
      meanOf(block, ({ heading }) => Math.cos(heading)),
    ),
  );

/**
 * The apparent wind as one of the same mean component ahead, and the same mean cosine: a masthead that swings, and air from abeam, add to the mean speed
 * and not to that. NaN where no second has a wind; ahead where none has an angle.
 */
function windOf(block: Block): { readonly awa: Radians; readonly aws: number } {
  const known = block.filter(({ aws = Number.NaN }) => Number.isFinite(aws));
  if (known.length === 0) return { awa: Number.NaN, aws: Number.NaN };
  const cosineOf = ({ awa = Number.NaN }: SecondUnderPower): number =>
    Number.isFinite(awa) ? Math.cos(awa) : 1;
  const share = meanOf(known, cosineOf);
  const ahead = meanOf(known, (second) => (second.aws ?? Number.NaN) * cosineOf(second));
  return { awa: Math.acos(share), aws: ahead / share };
}

/**
 * M134. What was sailed straight, in blocks of 20 s (M186), each numbered by its leg, whether under power or not.
 *
 * @param seconds in the order of time
 * Never throws.
 */
export function straightPieces(seconds: readonly SecondUnderPower[]): readonly RunPiece[] {
  let leg = 0;
  let last: RunPiece | undefined;
  return blocksOf(seconds)
    .filter((block) => Math.abs(turnOf(block)) <= STRAIGHT_TURN)
    .map((block) => {
      const [start, heading] = [block[0]!.time, headingOf(block)];
      const goesOn =
        last !== undefined &&
        start - last.start - last.duration <= HOLE &&
        Math.abs(angleBetween(heading, last.mean.heading)) <= STRAIGHT;
      if (!goesOn) leg += 1;
      last = {
        leg,
        start,
        duration: durationOf(block) + 1,
        count: block.length,
        headingIsTrue: false,
        variation: block[0]!.variation,
        mean: {
          heading,
          stw: meanOf(block, ({ stw }) => stw),
          east: meanOf(block, ({ east }) => east),
          north: meanOf(block, ({ north }) => north),
          ...windOf(block),
        },
      };
      return last;
    });
}
