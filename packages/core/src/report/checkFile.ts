import type { SourceRow } from "../recording/inventoryPart.ts";
import type { Stretch } from "../recording/stretches.ts";
import type { Seconds } from "../units.ts";
import type { Check } from "./check.ts";
import { CHECK_FILE, type CheckInFile } from "./checkSchema.ts";
import { inOrder } from "./checkText.ts";
import { evidenceIn } from "./evidence.ts";
import { inShownUnit, unitLetters } from "./quantityUnits.ts";
import { sourceWords } from "./sourceWords.ts";

/** Digits of measured numbers: more would be those of the arithmetic. */
const DIGITS = 6;

/** A number as files hold it; null where it is not known. */
const known = (value: number): number | null =>
  Number.isFinite(value) ? Number(value.toPrecision(DIGITS)) : null;

/** Seconds to the thousandth. */
const length = (seconds: Seconds): number | null =>
  Number.isFinite(seconds) ? Math.round(seconds * 1000) / 1000 : null;

/** The latest time that a date can hold, s. */
const LAST: Seconds = 8.64e12;

const isoTime = (time: Seconds): string | null =>
  Math.abs(time) <= LAST ? new Date(time * 1000).toISOString() : null;

const stretches = (all: readonly Stretch[]) =>
  all.map(({ start, seconds }) => ({ start: isoTime(start), length_s: length(seconds) }));

function sourceInFile(row: SourceRow & { readonly isTaken: boolean }, { recording }: Check) {
  const { quantity, name } = row.source;
  const shown = (value: number): number | null => known(inShownUnit(quantity, value));
  const judged = [...recording.chosen, ...recording.others].find(
    ({ source }) => source.quantity === quantity && source.name === name,
  );
  return {
    quantity,
    name,
    taken: row.isTaken,
    why: judged?.why ?? "",
    readings: row.readings,
    untimed_readings: row.untimed,
    start: isoTime(row.start),
    end: isoTime(row.end),
    rate_hz: known(row.rate),
    unit: unitLetters(quantity),
    step: shown(row.resolution),
    lowest: shown(row.lowest),
    highest: shown(row.highest),
    heard_s: length(row.heardSeconds),
    silent_s: length(row.gapSeconds),
    frozen_s: length(row.frozenSeconds),
    zero_s: length(row.zeroSeconds),
    spikes: row.spikes,
    leaps: row.leaps,
    repeats: row.repeats ?? null,
    is_course_over_ground: row.isCourse,
    gaps: stretches(row.gaps),
    frozen: stretches(row.frozen),
  };
}

const pairsInFile = ({ health }: Check): CheckInFile["pairs"] =>
  health.pairs.map(({ quantity, names: [one, other], seconds, bias, spread, noise, lag, isOpposite }) => {
    const shown = (value: number): number | null => known(inShownUnit(quantity, value));
    return {
      quantity,
      one,
      other,
      compared_s: seconds,
      unit: unitLetters(quantity),
      bias: shown(bias),
      spread: shown(spread),
      noise: shown(noise),
      lag_s: known(lag.seconds),
      opposite: isOpposite,
    };
  });

/**
 * What a recording holds, as a value of the published schema: times in ISO 8601, numbers that are not known null.
 *
 * @returns what `check --json` prints. Never throws.
 * @example
 * const { recording, sailing, health } = summary;
 * checkInFile({ recording, ...sailing, health }).sailed.tacks > 4 // true
 */
export function checkInFile(check: Check): CheckInFile {
  const { recording, health, legs, turns } = check;
  const { can, cannot } = evidenceIn(check, check.rows);
  const { lines, used, ignored, problems } = recording.lines;
  const turned = (kind: "tack" | "gybe"): number => turns.filter((turn) => turn.kind === kind).length;
  return {
    ...CHECK_FILE,
    files: health.logs.map(({ name, start, end }) => ({ name, start: isoTime(start), end: isoTime(end) })),
    files_left_out: (recording.filesLeftOut ?? []).map(({ name, reason }) => ({ name, reason })),
    start: isoTime(recording.start),
    end: isoTime(recording.end),
    directions_are: recording.directionsAre,
    lines: { all: lines, used, ignored, problems },
    problem_counts: { ...health.problemCounts },
    first_problems: recording.problems.map((problem) => ({ ...problem })),
    sailed: {
      steady_s: recording.seconds.sailing,
      motoring_s: recording.seconds.motoring,
      other_s: recording.seconds.other,
      legs: legs.length,
      tacks: turned("tack"),
      gybes: turned("gybe"),
    },
    sources: inOrder(check).map((row) => sourceInFile(row, check)),
    pairs: pairsInFile(check),
    lags: recording.lags.map(({ channel, seconds }) => ({ sensor: channel, lag_s: known(seconds) })),
    gaps: stretches(health.gaps),
    swapped_winds: health.swapped.map(({ apparent, onboardTrue, share }) => ({
      apparent,
      onboard_true: onboardTrue,
      share: known(share),
    })),
    wind_is_mirrored: health.windIsMirrored,
    troubles: (check.troubles ?? []).map(({ kind, channel, start, end, remedy }) => ({
      kind,
      sensor: channel,
      start: isoTime(start),
      end: isoTime(end),
      remedy,
    })),
    stands_out: [...sourceWords(check)],
    can_calibrate: [...can],
    cannot_calibrate: [...cannot],
  };
}

/** The text of what `check --json` prints. Never throws. */
export const checkFileText = (check: Check): string =>
  `${JSON.stringify(checkInFile(check), undefined, 2)}\n`;
