import { type MetresPerSecond, type Radians, radians, type Seconds } from "../units.ts";
import { type Block, durationOf, midOf, turnOf } from "./circleBlocks.ts";

/** Closer to the wind than this no boat sails, the sensors' own faults allowed for (M38). */
const NO_SAIL: Radians = radians(26);

/** Boat speed over true wind speed that no displacement boat reaches under sail (M38). */
const TOO_FAST = 1.7;

/**
 * An engine that is seen drives her at about the same speed before and after: for so long at most (eight headings take some 15 minutes), with so many blocks on end at another
 * speed, as in a turn, and no longer hole. Judgement.
 */
const ALIKE = 0.12;
const OF_ONE_RUN: Seconds = 900;
const ANOTHER_SPEED = 2;
const HOLE: Seconds = 120;

/** A slow circle: so far round to one side, never slower than this, no longer hole. */
const ROUND: Radians = radians(330);
const TURNING = radians(0.5);
const NEXT: Seconds = 90;

/** Means of a block as its wind and its way show them; NaN where there is no wind. */
interface Motion {
  readonly at: Seconds;
  readonly speed: MetresPerSecond;
  readonly turn: number;
  /** Between bow and true wind, plain sum of vectors. */
  readonly angle: Radians;
  readonly wind: MetresPerSecond;
}

function motionOf(block: Block): Motion {
  const mean = (of: (second: Block[number]) => number): number =>
    block.reduce((sum, second) => sum + of(second), 0) / block.length;
  const speed = mean(({ stw }) => stw);
  const ahead = mean(({ awa = Number.NaN, aws = Number.NaN }) => aws * Math.cos(awa)) - speed;
  const abeam = mean(({ awa = Number.NaN, aws = Number.NaN }) => aws * Math.sin(awa));
  return {
    at: midOf(block),
    speed,
    turn: turnOf(block),
    angle: Math.abs(Math.atan2(abeam, ahead)),
    wind: Math.hypot(ahead, abeam),
  };
}

/** Which blocks are of circles, those just before and after taken in: no boat sails right round without losing her way head to wind. */
function inCircles(blocks: readonly Block[]): readonly boolean[] {
  const of = blocks.map(() => false);
  let from = 0;
  const end = (to: number): void => {
    let turned = 0;
    for (let at = from; at < to; at++) {
      const [block, next] = [blocks[at]!, at + 1 < to ? blocks[at + 1] : undefined];
      turned += turnOf(block) * (next ? next[0]!.time - block[0]!.time : durationOf(block));
    }
    if (Math.abs(turned) >= ROUND) of.fill(true, Math.max(0, from - 1), to + 1);
    from = to;
  };
  blocks.forEach((block, at) => {
    const [last, turn] = [blocks[at - 1], turnOf(block)];
    const goesOn =
      last !== undefined &&
      block[0]!.time - last.at(-1)!.time <= NEXT &&
      turn * turnOf(last) > 0 &&
      Math.abs(turn) >= TURNING;
    if (!goesOn) end(at);
  });
  end(blocks.length);
  return of;
}

/** Marks what an engine that is seen at a block has driven too, one way in time. */
function markRun(motions: readonly Motion[], from: number, step: 1 | -1, underPower: boolean[]): void {
  const { at, speed } = motions[from]!;
  let others = 0;
  for (let index = from + step; index >= 0 && index < motions.length; index += step) {
    const [motion, beside] = [motions[index]!, motions[index - step]!];
    if (Math.abs(motion.at - at) > OF_ONE_RUN || Math.abs(motion.at - beside.at) > HOLE) return;
    const isAlike = Math.abs(Math.log(motion.speed / speed)) <= ALIKE;
    others = isAlike ? 0 : others + 1;
    if (others > ANOTHER_SPEED) return;
    if (isAlike) underPower[index] = true;
  }
}

/**
 * M191. Which blocks look like sailing: they are of no circle, and not of an unbroken run at about one speed in which she went straight closer to the wind than any boat
 * sails, or faster than the wind lets her. Where no wind was logged nothing looks like sailing.
 *
 * @param blocks in the order of time
 * @returns one for each. Never throws.
 */
export function blocksUnderSail(blocks: readonly Block[]): readonly boolean[] {
  const motions = blocks.map(motionOf);
  const circling = inCircles(blocks);
  const engine = motions.map(
    ({ angle, wind, speed, turn }, at) =>
      !circling[at] && Math.abs(turn) < TURNING && (angle < NO_SAIL || speed > TOO_FAST * wind),
  );
  const underPower = [...engine];
  engine.forEach((isSeen, at) => {
    if (!isSeen) return;
    markRun(motions, at, 1, underPower);
    markRun(motions, at, -1, underPower);
  });
  return motions.map(({ wind }, at) => !(circling[at] || underPower[at] || Number.isNaN(wind)));
}
