import { type MetresPerSecond, radians, type Seconds } from "../units.ts";
import { longestUsualStay, stayLengthsOf } from "./stayHabit.ts";
import type { Stay, WatchedStays } from "./staysWatch.ts";
import type { Trouble, WatchedChannel } from "./trouble.ts";

/** However restless a sensor is, a value may stay for so long: coarse steps, a smooth minute, a wheel in flat water. */
const LONGEST_REST: Readonly<Record<WatchedChannel, Seconds>> = {
  awa: 45,
  aws: 45,
  stw: 120,
  heading: 45,
  heel: 60,
};

/** A wheel at 0 this long is no splash. */
const LONGEST_SPLASH: Seconds = 60;

/** Slower than this she may lie moored, where a heading or a heel rests as long as it likes. */
const UNDER_WAY: MetresPerSecond = 1;

/** The others have moved so that this one must have: yaw or course, wind angle (rad), shares of the boat speed and of the wind's pressure. */
const MOVED = { direction: radians(4), wind: radians(10), speed: 0.08, load: 0.3 } as const;

const turned = ({ range }: Stay): boolean =>
  range.heading >= MOVED.direction || range.course >= MOVED.direction;

const gustsCame = ({ range, meanwhile }: Stay): boolean =>
  range.aws >= MOVED.load * meanwhile.aws || range.awa >= MOVED.wind;

/** M90. Whether the other sensors moved so far that this one cannot have stayed. */
function othersMoved(stay: Stay): boolean {
  const { channel, range, meanwhile } = stay;
  switch (channel) {
    case "awa":
    case "aws":
      return turned(stay) || range.stw >= MOVED.speed * meanwhile.stw;
    case "heading":
      return range.course >= MOVED.direction || (Number.isNaN(range.course) && range.awa >= MOVED.wind);
    case "heel":
      return turned(stay) && range.load >= MOVED.load * meanwhile.aws ** 2;
    case "stw":
      return Number.isNaN(range["over ground"])
        ? turned(stay) && gustsCame(stay)
        : range["over ground"] >= MOVED.speed * meanwhile["over ground"];
  }
}

/** Boat speed meanwhile, by a sensor that is not the one that stayed. */
const wayMeanwhile = ({ channel, meanwhile, before }: Stay): MetresPerSecond => {
  if (!Number.isNaN(meanwhile["over ground"])) return meanwhile["over ground"];
  return channel === "stw" ? before.stw : meanwhile.stw;
};

/** A boat becalmed may drift so fast over ground, in a tide, with a wheel at rest; and so much of her way she may have lost. */
const [FASTEST_DRIFT, KEPT]: readonly [MetresPerSecond, number] = [1.5, 0.5];

/** Without GPS: ln wind is what it was to so much. */
const SAME_WIND = 0.25;

/** M91. Whether a wheel that shows exactly 0 stopped while the boat went on. */
function stoppedUnderWay({ meanwhile, before }: Stay): boolean {
  if (!(before.stw >= UNDER_WAY)) return false;
  const over = meanwhile["over ground"];
  return Number.isNaN(over)
    ? Math.abs(Math.log(meanwhile.aws / before.aws)) < SAME_WIND
    : over >= Math.max(FASTEST_DRIFT, KEPT * before.stw);
}

const troubleOf = ({ channel, start, end, value }: Stay, kind: "frozen" | "stopped"): Trouble => ({
  kind,
  channel,
  start,
  end,
  size: kind === "stopped" ? 0 : value,
  remedy: "rows left out",
});

/**
 * M90, M91. Sensors that froze, and wheels that stopped: values that stayed for longer than this sensor's do, while the others
 * show that they must have moved.
 *
 * @param watched parts of one boat's recording
 * @returns none where sensors work. Never throws.
 */
export function frozenSensors(watched: readonly WatchedStays[]): readonly Trouble[] {
  const longest = (channel: WatchedChannel): Seconds =>
    Math.max(
      LONGEST_REST[channel],
      longestUsualStay(stayLengthsOf(watched.map(({ lengths }) => lengths[channel]))),
    );
  const limits: Readonly<Record<WatchedChannel, Seconds>> = {
    awa: longest("awa"),
    aws: longest("aws"),
    stw: longest("stw"),
    heading: longest("heading"),
    heel: longest("heel"),
  };
  return watched
    .flatMap(({ stays }) => stays)
    .flatMap((stay) => {
      const seconds = stay.end - stay.start;
      if (stay.channel === "stw" && stay.value === 0)
        return seconds >= LONGEST_SPLASH && stoppedUnderWay(stay) ? [troubleOf(stay, "stopped")] : [];
      if (seconds <= limits[stay.channel] || !(wayMeanwhile(stay) >= UNDER_WAY)) return [];
      return othersMoved(stay) ? [troubleOf(stay, "frozen")] : [];
    });
}
