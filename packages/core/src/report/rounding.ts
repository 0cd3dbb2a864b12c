import { angleBetween, wrapAngle } from "../angles.ts";
import type { Boat, OnboardComputer, StepName } from "../calibration/boat.ts";
import { siFromEdge } from "../calibration/edgeUnits.ts";
import type { SolvedBoatFit } from "../fit/boatFit.ts";
import type { SensorSettings } from "../sensors/parameters.ts";
import { type Radians, radians } from "../units.ts";
import { keyedReading } from "./bestWind.ts";
import { computerTrueWind, type WindReading } from "./computer.ts";
import { lookedUpWind, type TableCell } from "./entries.ts";
import { LEARNT } from "./format.ts";
import { keyedSettings } from "./keyed.ts";
import type { SettingName, SingleSetting } from "./settings.ts";

/** The steps that are assumed where the boat file tells none: whole degrees and percents, tenths of knots. Common practice. */
export const USUAL_STEPS: Readonly<Record<StepName, number>> = {
  boat_speed_intercept_kn: 0.1,
  boat_speed_gain_percent: 1,
  compass_alignment_deg: 1,
  heel_zero_deg: 1,
  leeway_coefficient: 1,
  masthead_offset_deg: 1,
  wind_speed_threshold_kn: 0.1,
  wind_speed_gain_percent: 1,
  wind_angle_table_deg: 1,
  wind_speed_table_kn: 0.1,
};

const STEP_OF: Readonly<Record<SettingName, StepName>> = {
  "boat speed intercept": "boat_speed_intercept_kn",
  "boat speed gain on starboard tack": "boat_speed_gain_percent",
  "boat speed gain on port tack": "boat_speed_gain_percent",
  "compass alignment (A)": "compass_alignment_deg",
  "heel zero": "heel_zero_deg",
  "leeway coefficient": "leeway_coefficient",
  "masthead offset": "masthead_offset_deg",
  "wind speed threshold": "wind_speed_threshold_kn",
  "wind speed gain": "wind_speed_gain_percent",
};

/** A step in SI: the ending of its name tells its unit. */
function stepOf(name: StepName, { steps }: Pick<Boat, "steps">): number {
  const step = steps?.[name] ?? USUAL_STEPS[name];
  if (name.endsWith("_deg")) return siFromEdge(step, "deg");
  if (name.endsWith("_kn")) return siFromEdge(step, "kn");
  return name.endsWith("_percent") ? step / 100 : siFromEdge(step, "deg*kn2/deg");
}

const roundedTo = (value: number, step: number): number => Math.round(value / step) * step;

/** A setting as the instruments take it. */
export interface RoundedEntry {
  readonly setting: SingleSetting;
  /** The amount in all, SI, rounded to the instruments' step. */
  readonly rounded: number;
}

/** What is keyed in once it is rounded, and what that costs. */
export interface Rounding {
  /** Those that are to be keyed in. */
  readonly entries: readonly RoundedEntry[];
  /** By how much rounding turns the true wind on starboard, less on port, close-hauled; NaN where one tack is missing. */
  readonly tackGap: Radians;
  /** What is then active in the instruments. */
  readonly settings: SensorSettings;
  /** Whether the boat file tells no step at all. */
  readonly stepsAssumed: boolean;
}

/** Ahead of this angle of the apparent wind she is close-hauled. */
const UPWIND: Radians = radians(55);

/** The true wind angle that the computer shows in a cell. */
function shownAngle(
  cell: TableCell,
  keyed: SensorSettings,
  computer: OnboardComputer,
  added: WindReading,
): Radians {
  const looked = lookedUpWind(cell.typical, keyed, computer);
  const after = { angle: wrapAngle(looked.angle + added.angle), speed: looked.speed + added.speed };
  if (computer.table === "true") return after.angle;
  return computerTrueWind(after, keyedReading(cell.typical, keyed).state, computer).angle;
}

/** M137. Mean over the close-hauled cells of a tack, by their rows, of what rounding turns the true wind by. */
function turned(
  cells: readonly TableCell[],
  tack: TableCell["tack"],
  by: (cell: TableCell) => Radians,
): Radians {
  const own = cells.filter((cell) => cell.tack === tack && Math.abs(cell.typical.mean.awa) < UPWIND);
  const rows = own.reduce((sum, cell) => sum + cell.rows, 0);
  return own.reduce((sum, cell) => sum + cell.rows * by(cell), 0) / rows;
}

/** What is laid out to be keyed in, before it is rounded. */
export interface LaidOut {
  readonly settings: readonly SingleSetting[];
  readonly cells: readonly TableCell[];
  readonly isTableKeyed: boolean;
  readonly isCardKeyed: boolean;
}

/**
 * M137. The single settings and the table rounded to the steps that the instruments take, and what rounding costs in tack gap.
 *
 * @param active what the instruments applied while the log was recorded
 * Never throws.
 */
export function roundingOf(
  { settings, cells, isTableKeyed, isCardKeyed }: LaidOut,
  fit: SolvedBoatFit,
  active: SensorSettings,
  boat: Boat,
): Rounding {
  const { computer } = boat;
  const roundedSettings = settings.map((setting) =>
    setting.advice === "key in"
      ? {
          ...setting,
          estimate: {
            ...setting.estimate,
            value: roundedTo(setting.estimate.value, stepOf(STEP_OF[setting.name], boat)),
          },
        }
      : setting,
  );
  const { sign } = fit.settings.heel;
  const [exact, rounded] = [settings, roundedSettings].map((all) => keyedSettings(all, active, sign));
  const entry = (cell: TableCell, round: boolean): WindReading => {
    if (!isTableKeyed || !(cell.angle.informed >= LEARNT)) return { angle: 0, speed: 0 };
    const { angle, speed } = { angle: cell.angle.value, speed: cell.speed.value };
    return round
      ? {
          angle: roundedTo(angle, stepOf("wind_angle_table_deg", boat)),
          speed: roundedTo(speed, stepOf("wind_speed_table_kn", boat)),
        }
      : { angle, speed };
  };
  const by = (cell: TableCell): Radians =>
    angleBetween(
      shownAngle(cell, rounded!, computer, entry(cell, true)),
      shownAngle(cell, exact!, computer, entry(cell, false)),
    );
  return {
    entries: roundedSettings.flatMap((setting, at) =>
      setting.advice === "key in" ? [{ setting: settings[at]!, rounded: setting.estimate.value }] : [],
    ),
    tackGap: turned(cells, "starboard", by) - turned(cells, "port", by),
    settings: inForceAfter(rounded!, roundedSettings, fit.settings, active, {
      isCardKeyed,
      // a table on true wind leaves the apparent wind that is logged as it is
      isTableInLog: isTableKeyed && computer.table === "apparent",
    }),
    stepsAssumed: boat.steps === undefined,
  };
}

/** What a log then holds: single settings, deviation card, and the table's upwash and speed-up where the table acts on what is logged. */
function inForceAfter(
  keyed: SensorSettings,
  settings: readonly SingleSetting[],
  fitted: SensorSettings,
  active: SensorSettings,
  { isCardKeyed, isTableInLog }: { readonly isCardKeyed: boolean; readonly isTableInLog: boolean },
): SensorSettings {
  const alignment = settings.find(({ name }) => name === "compass alignment (A)");
  const a = alignment?.advice === "key in" ? alignment.estimate.value : active.compass.a;
  const card = isCardKeyed ? fitted.compass : active.compass;
  const air = isTableInLog ? fitted : active;
  return {
    ...keyed,
    compass: { ...card, a, heelingError: active.compass.heelingError },
    vane: { ...air.vane, mastheadOffset: keyed.vane.mastheadOffset },
    anemometer: { ...keyed.anemometer, speedUp: air.anemometer.speedUp },
  };
}
