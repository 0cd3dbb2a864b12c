import type { SourceRow } from "../../recording/inventoryPart.ts";
import type { QuantityName } from "../../recording/readings.ts";
import {
  endOf,
  outside,
  type Stretch,
  stretchTo,
  together,
  totalSeconds,
} from "../../recording/stretches.ts";
import type { WatchedChannel } from "../../sailing/trouble.ts";
import type { Seconds } from "../../units.ts";
import type { CheckedRecording } from "../check.ts";
import { inOrder } from "../checkText.ts";
import { counted, inWords } from "../format.ts";
import { along, axis, COLOUR, type Figure, type JsonObject, layout, times } from "./figure.ts";
import { dayTicks, gapBreaks } from "./time.ts";

/** Height of a lane, and of what stands around them, px. */
const [LANE, AROUND] = [24, 110] as const;

/** The axis has hardly more pixels: silences shorter than its share of the time cannot be seen. */
const PIXELS = 1500;

/** Stretches drawn in a lane at most: the longest. */
const MOST_DRAWN = 120;

interface Lane {
  readonly name: string;
  readonly bars: readonly { readonly of: readonly Stretch[]; readonly kind: Kind }[];
}

/** What a bar says, and what it looks like: width, px, tells apart what one lane holds, for those who do not see colours. */
const KINDS = {
  told: { name: "told", colour: COLOUR.muted, width: 5 },
  frozen: { name: "at one value", colour: COLOUR.accent, width: 10 },
  starboard: { name: "starboard tack", colour: COLOUR.starboard, width: 16 },
  port: { name: "port tack", colour: COLOUR.port, width: 8 },
  motoring: { name: "under power", colour: COLOUR.ink, width: 3 },
  trouble: { name: "in trouble", colour: COLOUR.ink, width: 18 },
} as const;
type Kind = keyof typeof KINDS;

/** A source's spans without its silences. */
const toldIn = ({ spans, gaps }: SourceRow): readonly Stretch[] =>
  spans.flatMap((span) => outside(span, gaps));

const stretchOf = (one: { readonly start: Seconds; readonly end: Seconds }): Stretch =>
  stretchTo(one.start, one.end);

/** The channel as which a quantity is watched. */
const WATCHED_AS: Readonly<Partial<Record<QuantityName, WatchedChannel>>> = {
  apparentWindAngle: "awa",
  apparentWindSpeed: "aws",
  speedThroughWater: "stw",
  headingMagnetic: "heading",
  headingTrue: "heading",
  heel: "heel",
};

/** Sailing above, then a lane for each source that was taken. */
function lanesOf(check: CheckedRecording): readonly Lane[] {
  const { legs, troubles = [] } = check;
  const side = (kind: "starboard" | "port"): Lane["bars"][number] => ({
    kind,
    of: legs.filter((leg) => leg.kind === "sailing" && leg.tack === kind).map(stretchOf),
  });
  const motoring = legs.filter(({ kind }) => kind === "motoring").map(stretchOf);
  return [
    { name: "legs", bars: [side("starboard"), side("port"), { kind: "motoring", of: motoring }] },
    ...inOrder(check)
      .filter(({ isTaken }) => isTaken)
      .map((row) => ({
        name: inWords(row.source.quantity),
        bars: [
          { kind: "told" as const, of: toldIn(row) },
          { kind: "frozen" as const, of: row.frozen },
          {
            kind: "trouble" as const,
            of: troubles.filter(({ channel }) => WATCHED_AS[row.source.quantity] === channel).map(stretchOf),
          },
        ],
      })),
  ];
}

const longest = (all: readonly Stretch[]): readonly Stretch[] =>
  all.length <= MOST_DRAWN ? all : [...all].sort((a, b) => b.seconds - a.seconds).slice(0, MOST_DRAWN);

/** The bars of one kind in all lanes, as one broken line. */
function barsTrace(lanes: readonly Lane[], kind: Kind, apart: Seconds): JsonObject {
  const drawn = lanes.flatMap(({ name, bars }) =>
    bars
      .filter((bar) => bar.kind === kind)
      .flatMap(({ of }) => longest(together(of, apart)).map((stretch) => ({ name, stretch }))),
  );
  const { name, colour, width } = KINDS[kind];
  return {
    type: "scatter",
    mode: "lines",
    name,
    hoverinfo: "name",
    x: times(drawn.flatMap(({ stretch }) => [stretch.start, endOf(stretch), Number.NaN])),
    y: drawn.flatMap(({ name: lane }) => [lane, lane, null]),
    line: { color: colour, width },
  };
}

/** A time every minute of some stretches. */
const minutesOf = (stretches: readonly Stretch[]): readonly Seconds[] =>
  stretches.flatMap(({ start, seconds }) =>
    Array.from({ length: Math.floor(seconds / 60) + 1 }, (_, minute) => start + 60 * minute),
  );

/** The recording through time: legs above, then which source told something when. Nights are cut out. Never throws. */
export function recordingTimeline(check: CheckedRecording): Figure {
  const lanes = lanesOf(check);
  const running = together(check.health.sources.flatMap(({ spans }) => spans));
  // stretches that lie nearer together than can be seen are drawn as one
  const apart = totalSeconds(running) / PIXELS;
  const kinds = (Object.keys(KINDS) as readonly Kind[]).filter((kind) =>
    lanes.some(({ bars }) => bars.some((bar) => bar.kind === kind && bar.of.length > 0)),
  );
  const words = `${counted(check.legs.length, "leg")} above, below them when each sensor that was taken told something: where a line is broken, it was silent${kinds.includes("trouble") ? "; where it is thick and dark, it was in trouble" : ""}.`;
  return {
    id: "timeline",
    label: `The recording through time. ${words}`,
    caption: words,
    height: AROUND + LANE * lanes.length,
    traces: kinds.map((kind) => barsTrace(lanes, kind, apart)),
    layout: layout({
      margin: { l: 8, r: 18, t: 8, b: 56 },
      xaxis: along("time (UTC)", {
        type: "date",
        rangebreaks: gapBreaks(running.flatMap((stretch) => [stretch.start, endOf(stretch)])),
        ...dayTicks(minutesOf(running)),
      }),
      yaxis: axis({
        type: "category",
        categoryorder: "array",
        categoryarray: lanes.map(({ name }) => name).reverse(),
        // told, so that the names' room is known before anything is drawn: else all is drawn twice
        range: [-0.5, lanes.length - 0.5],
        showgrid: false,
        automargin: true,
      }),
      legend: { orientation: "h", xref: "container", x: 0, yref: "container", y: 1, yanchor: "top" },
    }),
  };
}
