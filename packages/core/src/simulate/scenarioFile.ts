import { checked, versionedObject } from "../calibration/checkedFile.ts";
import { edgeFromSi, siFromEdge } from "../calibration/edgeUnits.ts";
import { settingsFromFile, settingsInFile } from "../calibration/settingsFile.ts";
import { noCorrections } from "../sensors/noCorrections.ts";
import { faultsFromFile, faultsInFile } from "./faultsFile.ts";
import type { LogForm, PlanStep, Scenario, SensorForm } from "./scenario.ts";
import { SCENARIO_FILE, type ScenarioInFile, scenarioSchema } from "./scenarioSchema.ts";
import { troubleFromFile, troubleInFile } from "./troublesFile.ts";

const angle = (degrees: number): number => siFromEdge(degrees, "deg");
const speed = (knots: number): number => siFromEdge(knots, "kn");
const inDegrees = (angle: number): number => edgeFromSi(angle, "deg");
const inKnots = (speed: number): number => edgeFromSi(speed, "kn");

type StepInFile = ScenarioInFile["plan"][number];

function stepFromFile(step: StepInFile): PlanStep {
  switch (step.kind) {
    case "motor":
      return {
        kind: "motor",
        heading: angle(step.heading_deg),
        speed: speed(step.speed_kn),
        seconds: step.seconds,
      };
    case "circle":
      return {
        kind: "circle",
        turns: step.turns,
        rate: angle(step.rate_deg_per_s),
        speed: speed(step.speed_kn),
      };
    case "reach":
      return {
        kind: "reach",
        tack: step.tack,
        angle: angle(step.true_wind_angle_deg),
        seconds: step.seconds,
      };
    default:
      return step;
  }
}

function stepInFile(step: PlanStep): StepInFile {
  switch (step.kind) {
    case "motor":
      return {
        kind: "motor",
        heading_deg: inDegrees(step.heading),
        speed_kn: inKnots(step.speed),
        seconds: step.seconds,
      };
    case "circle":
      return {
        kind: "circle",
        turns: step.turns,
        rate_deg_per_s: inDegrees(step.rate),
        speed_kn: inKnots(step.speed),
      };
    case "reach":
      return {
        kind: "reach",
        tack: step.tack,
        true_wind_angle_deg: inDegrees(step.angle),
        seconds: step.seconds,
      };
    default:
      return { kind: step.kind, tack: step.tack, seconds: step.seconds };
  }
}

interface SensorInFile {
  readonly present: boolean;
  readonly lag_s: number;
  readonly damping_s: number;
}

const sensor = ({ present, lag_s, damping_s }: SensorInFile, noise: number): SensorForm => ({
  present,
  lag: lag_s,
  damping: damping_s,
  noise,
});

const sensorInFile = ({ present, lag, damping }: SensorForm): SensorInFile => ({
  present,
  lag_s: lag,
  damping_s: damping,
});

function logFromFile(log: ScenarioInFile["log"]): LogForm {
  const { wind, paddle, compass, heel, gps } = log;
  return {
    wind: { ...sensor(wind, angle(wind.noise_deg)), speedNoise: speed(wind.speed_noise_kn) },
    paddle: sensor(paddle, speed(paddle.noise_kn)),
    compass: sensor(compass, angle(compass.noise_deg)),
    heel: sensor(heel, angle(heel.noise_deg)),
    gps: sensor(gps, speed(gps.noise_kn)),
    windRate: log.wind_hz,
    heelRate: log.heel_hz,
    angleDecimals: log.angle_decimals,
    speedDecimals: log.speed_decimals,
    headings: log.headings,
    active: log.active_settings === undefined ? noCorrections : settingsFromFile(log.active_settings),
    spikesPerHour: log.spikes_per_hour,
    silencesPerHour: log.silences_per_hour,
    brokenLinesPerHour: log.broken_lines_per_hour,
    onboardTrueWind: log.onboard_true_wind,
  };
}

function logInFile(log: LogForm): ScenarioInFile["log"] {
  const { wind, paddle, compass, heel, gps } = log;
  return {
    wind: {
      ...sensorInFile(wind),
      noise_deg: inDegrees(wind.noise),
      speed_noise_kn: inKnots(wind.speedNoise),
    },
    paddle: { ...sensorInFile(paddle), noise_kn: inKnots(paddle.noise) },
    compass: { ...sensorInFile(compass), noise_deg: inDegrees(compass.noise) },
    heel: { ...sensorInFile(heel), noise_deg: inDegrees(heel.noise) },
    gps: { ...sensorInFile(gps), noise_kn: inKnots(gps.noise) },
    wind_hz: log.windRate,
    heel_hz: log.heelRate,
    angle_decimals: log.angleDecimals,
    speed_decimals: log.speedDecimals,
    headings: log.headings,
    active_settings: settingsInFile(log.active),
    spikes_per_hour: log.spikesPerHour,
    silences_per_hour: log.silencesPerHour,
    broken_lines_per_hour: log.brokenLinesPerHour,
    onboard_true_wind: log.onboardTrueWind,
  };
}

function dayFromFile({ wind, shear, current, sea, helm }: ScenarioInFile) {
  return {
    wind: {
      direction: angle(wind.direction_deg),
      speed: speed(wind.speed_kn),
      directionSd: angle(wind.direction_sd_deg),
      turbulentDirectionSd: angle(wind.turbulent_direction_sd_deg),
      logSpeedSd: wind.log_speed_sd,
      turbulentLogSpeedSd: wind.turbulent_log_speed_sd,
      turbulenceSeconds: wind.turbulence_s,
      veer: angle(wind.veer_deg),
      rise: wind.rise,
      bend: angle(wind.bend_deg),
      ...(wind.gust_tails === undefined ? {} : { gustTails: wind.gust_tails }),
    },
    shear: {
      twist: angle(shear.twist_deg),
      twistWander: angle(shear.twist_wander_deg),
      speedRatio: shear.speed_ratio,
    },
    current: {
      strength: speed(current.strength_kn),
      set: angle(current.set_deg),
      phase: angle(current.phase_deg),
      wander: speed(current.wander_kn),
    },
    sea: {
      roll: angle(sea.roll_deg),
      pitch: angle(sea.pitch_deg),
      yaw: angle(sea.yaw_deg),
      rollFrequency: sea.roll_hz,
      pitchFrequency: sea.pitch_hz,
      ...(sea.skew === undefined ? {} : { skew: sea.skew }),
    },
    helm: {
      steersBy: helm.steers_by,
      asymmetry: angle(helm.asymmetry_deg),
      noise: angle(helm.noise_deg),
    },
  };
}

function dayInFile({ wind, shear, current, sea, helm }: Scenario) {
  return {
    wind: {
      direction_deg: inDegrees(wind.direction),
      speed_kn: inKnots(wind.speed),
      direction_sd_deg: inDegrees(wind.directionSd),
      turbulent_direction_sd_deg: inDegrees(wind.turbulentDirectionSd),
      log_speed_sd: wind.logSpeedSd,
      turbulent_log_speed_sd: wind.turbulentLogSpeedSd,
      turbulence_s: wind.turbulenceSeconds,
      veer_deg: inDegrees(wind.veer),
      rise: wind.rise,
      bend_deg: inDegrees(wind.bend),
      ...(wind.gustTails === undefined ? {} : { gust_tails: wind.gustTails }),
    },
    shear: {
      twist_deg: inDegrees(shear.twist),
      twist_wander_deg: inDegrees(shear.twistWander),
      speed_ratio: shear.speedRatio,
    },
    current: {
      strength_kn: inKnots(current.strength),
      set_deg: inDegrees(current.set),
      phase_deg: inDegrees(current.phase),
      wander_kn: inKnots(current.wander),
    },
    sea: {
      roll_deg: inDegrees(sea.roll),
      pitch_deg: inDegrees(sea.pitch),
      yaw_deg: inDegrees(sea.yaw),
      roll_hz: sea.rollFrequency,
      pitch_hz: sea.pitchFrequency,
      ...(sea.skew === undefined ? {} : { skew: sea.skew }),
    },
    helm: {
      steers_by: helm.steersBy,
      asymmetry_deg: inDegrees(helm.asymmetry),
      noise_deg: inDegrees(helm.noise),
    },
  };
}

/**
 * The scenario that a file describes; what it leaves out takes its default.
 *
 * @param text JSON
 * @param file its name, for messages
 * @throws RefusedFile naming file, field, expected and received
 * @example
 * const text = '{ "wind": { "direction_deg": 230, "speed_kn": 12 }, "plan": [{ "kind": "beat", "tack": "port", "seconds": 600 }] }';
 * knots(scenarioFromFile(text, "scenario.json").wind.speed).toFixed(6) // "12.000000"
 */
export function scenarioFromFile(text: string, file: string): Scenario {
  const fields = checked(scenarioSchema, versionedObject(text, file, SCENARIO_FILE, "current"), file);
  return {
    seed: fields.seed,
    start: Math.floor(Date.parse(fields.start) / 1000),
    latitude: angle(fields.latitude_deg),
    longitude: angle(fields.longitude_deg),
    mastHeight: fields.mast_height_m,
    faults: faultsFromFile(fields.faults),
    ...dayFromFile(fields),
    plan: fields.plan.map(stepFromFile),
    log: logFromFile(fields.log),
    ...(fields.troubles ? { troubles: fields.troubles.map(troubleFromFile) } : {}),
  };
}

/**
 * A scenario as its file holds it: the inverse of `scenarioFromFile`, with every default written out. Never throws.
 *
 * @example
 * scenarioInFile(scenario).seed === scenario.seed // true
 */
export const scenarioInFile = (scenario: Scenario): ScenarioInFile => ({
  ...SCENARIO_FILE,
  seed: scenario.seed,
  start: new Date(scenario.start * 1000).toISOString().replace(".000Z", "Z"),
  latitude_deg: inDegrees(scenario.latitude),
  longitude_deg: inDegrees(scenario.longitude),
  mast_height_m: scenario.mastHeight,
  faults: faultsInFile(scenario.faults),
  ...dayInFile(scenario),
  plan: scenario.plan.map(stepInFile),
  log: logInFile(scenario.log),
  ...(scenario.troubles ? { troubles: scenario.troubles.map(troubleInFile) } : {}),
});

/**
 * The text of a scenario file, every default written out. Never throws.
 *
 * @example
 * JSON.parse(scenarioFileText(scenario)).schema // "bothtacks-scenario"
 */
export const scenarioFileText = (scenario: Scenario): string =>
  `${JSON.stringify(scenarioInFile(scenario), undefined, 2)}\n`;
