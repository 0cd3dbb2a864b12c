import { type Leg, type LegRow, MOMENT_CHANNELS } from "./legRow.ts";
import { type Sailing, secondsInRows } from "./sailing.ts";
import { type Trouble, treatedBy, type WatchedChannel } from "./trouble.ts";

/** Without these channels a row still tells something, so they can be left out by themselves. */
const DISPENSABLE: readonly WatchedChannel[] = ["stw", "heading", "heel"];

/** A channel in trouble for more than this share of the rows that have it is left out all over. */
const MOST = 0.5;

const touches =
  ({ start, end }: Trouble) =>
  (row: LegRow): boolean =>
    row.start < end && row.start + row.duration > start;

const touchedBy = (troubles: readonly Trouble[], row: LegRow): boolean =>
  troubles.some((trouble) => touches(trouble)(row));

/** A row without one of its channels. */
function withoutChannel(row: LegRow, channel: WatchedChannel): LegRow {
  const place = MOMENT_CHANNELS.indexOf(channel);
  const size = MOMENT_CHANNELS.length;
  const covariance = row.covariance.map((value, index) =>
    index % size === place || Math.floor(index / size) === place ? Number.NaN : value,
  );
  return { ...row, mean: { ...row.mean, [channel]: Number.NaN }, covariance };
}

/** A row that lies within a trouble with its size taken off; undefined where only a part of the row does. */
function setRight(row: LegRow, { channel, start, end, size }: Trouble): LegRow | undefined {
  if (row.start < start || row.start + row.duration > end) return undefined;
  return { ...row, mean: { ...row.mean, [channel]: row.mean[channel] - size } };
}

/** Wind that comes from two sensors most of the time cannot be left out: it is told, and the mean of the two is used. */
const isBeyondCure = (rows: readonly LegRow[], { kind, channel, start, end }: Trouble): boolean =>
  kind === "mixed" &&
  !DISPENSABLE.includes(channel) &&
  rows.filter((row) => row.start < end && row.start + row.duration > start).length > MOST * rows.length;

/** Channels that are in trouble most of the time. */
function hopeless(rows: readonly LegRow[], troubles: readonly Trouble[]): readonly WatchedChannel[] {
  return DISPENSABLE.filter((channel) => {
    const own = troubles.filter((trouble) => trouble.channel === channel);
    const having = rows.filter(({ mean }) => !Number.isNaN(mean[channel]));
    return having.filter((row) => touchedBy(own, row)).length > MOST * having.length;
  });
}

/** Legs and rows anew: legs that have lost all rows are gone, and the others counted through. */
function renumbered({ legs }: Sailing, rows: readonly LegRow[]): Pick<Sailing, "legs" | "rows"> {
  const left = legs.filter(({ number }) => rows.some(({ leg }) => leg === number));
  const numbers = new Map(left.map(({ number }, place) => [number, place]));
  return {
    legs: left.map((leg): Leg => ({ ...leg, number: numbers.get(leg.number)! })),
    rows: rows.map((row) => ({ ...row, leg: numbers.get(row.leg)! })),
  };
}

/**
 * M93. A sailing without what its sensors' troubles touched: rows that overlap a trouble are left out; where that would be more
 * than half of the rows of a channel that can be done without, the channel is left out of all rows instead. Where a trouble is
 * to be set right, rows within it have its size taken off, and rows on its edges are left out.
 *
 * @param troubles of rows; those whose seconds are left out already change nothing
 * @returns the very same sailing where nothing was found; else with the troubles listed. Never throws.
 */
export function sailingWithout(sailing: Sailing, troubles: readonly Trouble[]): Sailing {
  if (troubles.length === 0) return sailing;
  const found = troubles.map((trouble) =>
    isBeyondCure(sailing.rows, trouble) ? treatedBy(trouble, "nothing left out") : trouble,
  );
  const ofRows = found.filter(({ remedy }) => remedy === "rows left out");
  const without = hopeless(sailing.rows, ofRows);
  const isHopeless = ({ channel }: Trouble): boolean => without.includes(channel);
  const cutting = ofRows.filter((trouble) => !isHopeless(trouble));
  const shifted = found.filter(({ remedy }) => remedy === "set right");
  const kept = sailing.rows
    .filter((row) => !touchedBy(cutting, row))
    .flatMap((row) => {
      const own = shifted.find((trouble) => touches(trouble)(row));
      return own === undefined ? [row] : (setRight(row, own) ?? []);
    })
    .map((row) => without.reduce(withoutChannel, row));
  const listed = found.map((trouble) =>
    ofRows.includes(trouble) && isHopeless(trouble) ? treatedBy(trouble, "channel left out") : trouble,
  );
  const { seconds } = sailing;
  return {
    ...sailing,
    ...renumbered(sailing, kept),
    seconds: secondsInRows(kept, seconds.sailing + seconds.motoring + seconds.other),
    troubles: [...sailing.troubles, ...listed].sort((a, b) => a.start - b.start),
  };
}
