import type { ParameterName } from "../sensors/parameterNames.ts";
import { settingsIncrement } from "./activeSettings.ts";
import { boatFromFields, boatInFile } from "./boatFile.ts";
import type {
  Agreement,
  CalibratedRecording,
  Calibration,
  FittedParameter,
  SolvedBoatFit,
  WanderScales,
} from "./calibration.ts";
import { CALIBRATION_FILE, type CalibrationInFile, calibrationSchema } from "./calibrationSchema.ts";
import { checked, versionedObject } from "./checkedFile.ts";
import { type EdgeUnit, edgeFromSi, siFromEdge } from "./edgeUnits.ts";
import { leewayByTackFromFile, leewayByTackInFile } from "./leewayInFile.ts";
import { RefusedFile } from "./refusedFile.ts";
import { type SettingsInFile, settingsFromFile, settingsInFile } from "./settingsFile.ts";

/**
 * Units of the parameters in files.
 *
 * @example
 * PARAMETER_UNITS["vane.mastheadOffset"] // "deg"
 */
export const PARAMETER_UNITS: Readonly<Record<ParameterName, EdgeUnit>> = {
  "speed.intercept": "kn",
  "speed.gain": "ln",
  "speed.gainDifference": "ln",
  "compass.a": "deg",
  "compass.b": "deg",
  "compass.c": "deg",
  "compass.d": "deg",
  "compass.e": "deg",
  "compass.heelingError": "1",
  "heel.zero": "deg",
  "heelModel.fullHeel": "deg",
  "leeway.coefficient": "deg*kn2/deg",
  "vane.mastheadOffset": "deg",
  "vane.upwash": "deg",
  "vane.upwashSlope": "deg",
  "vane.upwashBroad": "deg",
  "anemometer.threshold": "kn",
  "anemometer.gain": "ln",
  "anemometer.speedUp": "1",
};

/** ISO 8601 in UTC, to the millisecond. @throws RangeError for a time that is none */
const momentInFile = (time: number): string => new Date(Math.round(time * 1000)).toISOString();

const momentFromFile = (text: string): number => Date.parse(text) / 1000;

const orNone = (value: number): number | null => (Number.isFinite(value) ? value : null);

function parameterInFile(parameter: FittedParameter): CalibrationInFile["parameters"][number] {
  const unit = PARAMETER_UNITS[parameter.name];
  return {
    name: parameter.name,
    unit,
    value: edgeFromSi(parameter.value, unit),
    sd: edgeFromSi(parameter.sd, unit),
    prior_mean: edgeFromSi(parameter.priorMean, unit),
    prior_sd: edgeFromSi(parameter.priorSd, unit),
    informed_share: edgeFromSi(parameter.informed, "1"),
  };
}

function parameterFromFile(
  parameter: CalibrationInFile["parameters"][number],
  index: number,
  file: string,
): FittedParameter {
  const unit = PARAMETER_UNITS[parameter.name];
  if (parameter.unit !== unit)
    throw new RefusedFile(
      file,
      `parameters[${index}].unit`,
      JSON.stringify(unit),
      JSON.stringify(parameter.unit),
    );
  return {
    name: parameter.name,
    value: siFromEdge(parameter.value, unit),
    sd: siFromEdge(parameter.sd, unit),
    priorMean: siFromEdge(parameter.prior_mean, unit),
    priorSd: siFromEdge(parameter.prior_sd, unit),
    informed: parameter.informed_share,
  };
}

const unitsOf = (parameters: readonly { readonly name: ParameterName }[]): readonly EdgeUnit[] =>
  parameters.map(({ name }) => PARAMETER_UNITS[name]);

function covarianceInFile({ parameters, covariance }: SolvedBoatFit): number[][] {
  const units = unitsOf(parameters);
  return units.map((rowUnit, row) =>
    units.map((unit, column) =>
      edgeFromSi(covariance[row * units.length + column] ?? Number.NaN, rowUnit, unit),
    ),
  );
}

function covarianceFromFile({ parameters, covariance }: CalibrationInFile, file: string): Float64Array {
  const units = unitsOf(parameters);
  if (covariance.length !== units.length || covariance.some((row) => row.length !== units.length))
    throw new RefusedFile(
      file,
      "covariance",
      `${units.length} rows of ${units.length} numbers, as many as parameters`,
      `${covariance.length} rows of ${covariance.map((row) => row.length).join(", ")}`,
    );
  const values = covariance.flatMap((row, index) =>
    row.map((value, column) => siFromEdge(value, units[index] ?? "1", units[column] ?? "1")),
  );
  return Float64Array.from(values);
}

function wanderInFile(wander: WanderScales): CalibrationInFile["wander"] {
  return {
    slow_direction_deg_per_sqrt_s: edgeFromSi(wander.slowDirection, "deg/sqrt(s)"),
    slow_log_speed_per_sqrt_s: edgeFromSi(wander.slowLogSpeed, "1/sqrt(s)"),
    fast_direction_deg: edgeFromSi(wander.fastDirection, "deg"),
    fast_log_speed: edgeFromSi(wander.fastLogSpeed, "ln"),
    fast_s: edgeFromSi(wander.fastSeconds, "s"),
  };
}

const wanderFromFile = (wander: CalibrationInFile["wander"]): WanderScales => ({
  slowDirection: siFromEdge(wander.slow_direction_deg_per_sqrt_s, "deg/sqrt(s)"),
  slowLogSpeed: wander.slow_log_speed_per_sqrt_s,
  fastDirection: siFromEdge(wander.fast_direction_deg, "deg"),
  fastLogSpeed: wander.fast_log_speed,
  fastSeconds: wander.fast_s,
});

type AgreementInFile = CalibrationInFile["agreements"]["before"][number];

function agreementInFile(agreement: Agreement): AgreementInFile {
  const unit = agreement.kind === "speed between tacks" ? "ln" : "deg";
  return {
    kind: agreement.kind,
    unit,
    value: orNone(edgeFromSi(agreement.value, unit)),
    sd: orNone(edgeFromSi(agreement.sd, unit)),
    contrasts: agreement.contrasts,
  };
}

const agreementFromFile = (agreement: AgreementInFile): Agreement => ({
  kind: agreement.kind,
  value: siFromEdge(agreement.value ?? Number.NaN, agreement.unit),
  sd: siFromEdge(agreement.sd ?? Number.NaN, agreement.unit),
  contrasts: agreement.contrasts,
});

function recordingInFile(recording: CalibratedRecording): CalibrationInFile["recording"] {
  return {
    files: [...recording.files],
    start: momentInFile(recording.start),
    end: momentInFile(recording.end),
    lines: { ...recording.lines },
    chosen_sources: recording.chosen.map(({ source, why, rate }) => ({
      quantity: source.quantity,
      name: source.name,
      why,
      rate_hz: orNone(rate),
    })),
    directions_are: recording.directionsAre,
  };
}

function recordingFromFile(recording: CalibrationInFile["recording"]): CalibratedRecording {
  return {
    files: recording.files,
    start: momentFromFile(recording.start),
    end: momentFromFile(recording.end),
    lines: recording.lines,
    chosen: recording.chosen_sources.map(({ quantity, name, why, rate_hz }) => ({
      source: { quantity, name },
      why,
      rate: rate_hz ?? Number.NaN,
    })),
    directionsAre: recording.directions_are,
  };
}

/** The increment between settings as the file shows them, digit by digit. */
const incrementInFile = (total: SettingsInFile, active: SettingsInFile): SettingsInFile =>
  settingsInFile(settingsIncrement(settingsFromFile(total), settingsFromFile(active)));

/**
 * The text of a calibration's file: JSON, versioned, in degrees and knots; increment written beside active and total.
 *
 * @throws RangeError for times that are none
 * @example
 * JSON.parse(calibrationFileText(calibration)).schema // "bothtacks-calibration"
 */
export function calibrationFileText(calibration: Calibration): string {
  const { boat, fit, before, after } = calibration;
  const { base, active } = calibration.settings;
  const { active_settings: _standsBelow, ...boatFields } = boatInFile(boat);
  const written = { active: settingsInFile(active), total: settingsInFile(fit.settings) };
  const file: CalibrationInFile = {
    ...CALIBRATION_FILE,
    made: momentInFile(calibration.made),
    boat: boatFields,
    recording: recordingInFile(calibration.recording),
    base,
    active: written.active,
    increment: incrementInFile(written.total, written.active),
    total: written.total,
    parameters: fit.parameters.map(parameterInFile),
    covariance: covarianceInFile(fit),
    wander: wanderInFile(fit.wander),
    ...(fit.leewayByTack ? { leeway_by_tack: leewayByTackInFile(fit.leewayByTack) } : {}),
    rows: fit.rows,
    outliers: fit.outliers.map(momentInFile),
    agreements: {
      before: [agreementInFile(before[0]), agreementInFile(before[1]), agreementInFile(before[2])],
      after: [agreementInFile(after[0]), agreementInFile(after[1]), agreementInFile(after[2])],
    },
    fit_notes: [...fit.notes],
    notes: [...calibration.notes],
  };
  return `${JSON.stringify(file, undefined, 2)}\n`;
}

function fitFromFile(fields: CalibrationInFile, file: string): SolvedBoatFit {
  return {
    status: "solved",
    settings: settingsFromFile(fields.total),
    parameters: fields.parameters.map((parameter, index) => parameterFromFile(parameter, index, file)),
    covariance: covarianceFromFile(fields, file),
    wander: wanderFromFile(fields.wander),
    rows: fields.rows,
    outliers: fields.outliers.map(momentFromFile),
    notes: fields.fit_notes,
    ...(fields.leeway_by_tack ? { leewayByTack: leewayByTackFromFile(fields.leeway_by_tack) } : {}),
  };
}

/**
 * The calibration that a file holds: the inverse of `calibrationFileText`, numbers within 6 parts in 10¹⁵, times to the
 * millisecond. What is written from it again is the same text.
 *
 * @param text JSON
 * @param file its name, for messages
 * @throws RefusedFile for another schema or version, and for any field that does not hold what it must
 * @example
 * const text = calibrationFileText(calibration);
 * calibrationFromFile(text, "calibration.json").boat.name === calibration.boat.name // true
 */
export function calibrationFromFile(text: string, file: string): Calibration {
  const fields = checked(calibrationSchema, versionedObject(text, file, CALIBRATION_FILE, "refused"), file);
  const settings = { base: fields.base, active: settingsFromFile(fields.active) };
  const { before, after } = fields.agreements;
  return {
    made: momentFromFile(fields.made),
    boat: { ...boatFromFields(fields.boat, file, ["boat"]), settings },
    recording: recordingFromFile(fields.recording),
    settings,
    fit: fitFromFile(fields, file),
    before: [agreementFromFile(before[0]), agreementFromFile(before[1]), agreementFromFile(before[2])],
    after: [agreementFromFile(after[0]), agreementFromFile(after[1]), agreementFromFile(after[2])],
    notes: fields.notes,
  };
}
