import { type Boat, boatFromFile, boatInFile } from "@bothtacks/core";
import { CALIBRATIONS, type KeptFile, keptFilesOn } from "../between/keptFiles.ts";
import type { LeftOut } from "./bench.ts";
import type { LogsSeen } from "./workshop.ts";

/** What is kept from visit to visit: the boat, what was left out of which recording, calibrations to compare. Logs are not. */
export interface Choices {
  readonly boat: () => Boat | undefined;
  readonly keepBoat: (boat: Boat) => void;
  readonly leftOut: (summary: LogsSeen) => LeftOut | undefined;
  readonly keepLeftOut: (summary: LogsSeen, leftOut: LeftOut) => void;
  /** @returns whether there was room. */
  readonly keepCalibration: (file: KeptFile) => boolean;
  readonly forget: () => void;
}

/** Nothing kept. */
export const NO_CHOICES: Choices = {
  boat: () => undefined,
  keepBoat: () => {},
  leftOut: () => undefined,
  keepLeftOut: () => {},
  keepCalibration: () => false,
  forget: () => {},
};

/** As much of a browser's local storage as is needed. */
export type Shelf = Pick<Storage, "getItem" | "setItem" | "removeItem">;

const BOAT = "bothtacks: boat";
const LEFT_OUT = "bothtacks: left out";

/** Recordings remembered; the one that was longest not touched goes first. */
const MOST_RECORDINGS = 20;

/** When legs and turns began, s since 1970 UTC: their numbers may change when a log is read otherwise. */
type Starts = Readonly<Record<keyof LeftOut, readonly number[]>>;

const recordingName = ({ recording }: LogsSeen): string =>
  [...recording.files, recording.start, recording.lines.lines].join(" | ");

const isNumbers = (value: unknown): value is readonly number[] =>
  Array.isArray(value) && value.every((one) => typeof one === "number");

function startsIn(value: unknown): Starts | undefined {
  if (typeof value !== "object" || value === null) return undefined;
  if (!("legs" in value && "turns" in value)) return undefined;
  const { legs, turns } = value;
  return isNumbers(legs) && isNumbers(turns) ? { legs, turns } : undefined;
}

const placesOf = (things: readonly { readonly start: number }[], starts: readonly number[]) =>
  things.flatMap(({ start }, place) => (starts.includes(start) ? [place] : []));

const startsOf = (things: readonly { readonly start: number }[], places: readonly number[]) =>
  places.flatMap((place) => things[place]?.start ?? []);

/** What is done with a shelf that may be full, or forbidden, or filled by another version: then nothing is kept. */
function attempted<Result>(work: () => Result): Result | undefined {
  try {
    return work();
  } catch {
    return undefined;
  }
}

/**
 * Choices kept on the browser's shelf.
 *
 * @param shelf gives it; may throw where the browser has none for this page
 */
export function choicesOn(shelf: () => Shelf): Choices {
  const recordings = (): readonly (readonly [string, unknown])[] => {
    const kept: unknown = JSON.parse(shelf().getItem(LEFT_OUT) ?? "[]");
    return Array.isArray(kept) ? kept.filter((one) => Array.isArray(one) && one.length === 2) : [];
  };
  return {
    boat: () =>
      attempted(() => {
        const text = shelf().getItem(BOAT);
        return text === null ? undefined : boatFromFile(text, "the boat kept on this machine");
      }),
    keepBoat: (boat) => attempted(() => shelf().setItem(BOAT, JSON.stringify(boatInFile(boat)))),
    leftOut: (summary) =>
      attempted(() => {
        const [, kept] = recordings().find(([name]) => name === recordingName(summary)) ?? [];
        const starts = startsIn(kept);
        const { legs, turns } = summary.sailing;
        return starts && { legs: placesOf(legs, starts.legs), turns: placesOf(turns, starts.turns) };
      }),
    keepLeftOut: (summary, leftOut) =>
      attempted(() => {
        const name = recordingName(summary);
        const others = recordings().filter(([other]) => other !== name);
        const { legs, turns } = summary.sailing;
        const starts = { legs: startsOf(legs, leftOut.legs), turns: startsOf(turns, leftOut.turns) };
        const all = [[name, starts], ...others].slice(0, MOST_RECORDINGS);
        shelf().setItem(LEFT_OUT, JSON.stringify(all));
      }),
    keepCalibration: (file) => {
      const kept = keptFilesOn(shelf);
      const others = kept.list().filter(({ text }) => text !== file.text);
      return kept.keep([...others, file]);
    },
    forget: () =>
      attempted(() => {
        shelf().removeItem(BOAT);
        shelf().removeItem(LEFT_OUT);
        shelf().removeItem(CALIBRATIONS);
      }),
  };
}
