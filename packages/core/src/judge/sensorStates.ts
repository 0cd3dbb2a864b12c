import type { ActiveSettings } from "../calibration/boat.ts";
import { siFromEdge } from "../calibration/edgeUnits.ts";
import {
  FINDING_UNITS,
  type Finding,
  type FindingName,
  SENSOR_NAMES,
  type SensorName,
  sensorOf,
  TYPICAL_READINGS,
} from "../calibration/findings.ts";
import { vectorOf } from "../fit/settingsVector.ts";
import { PARAMETER_NAMES } from "../sensors/parameterNames.ts";
import type { Evidence } from "./evidence.ts";
import { typicalFactor } from "./findingMoves.ts";

/** A number of a sensor that stands, with what found it. */
export interface StandingFinding {
  readonly finding: Finding;
  readonly evidence: Evidence;
  /** What stands in the instruments now; NaN where that is unknown, or it has no place among the settings. */
  readonly present: number;
  /** Whether it differs from that by more than its interval. */
  readonly toKeyIn: boolean;
  /** Whether what its own evidence rests on has been found otherwise since. */
  readonly isOutOfDate: boolean;
  /** The numbers of other sensors that it rests on, the weightiest first (M136); empty where only the sensors are known. */
  readonly restsOn: readonly FindingName[];
}

/** Why what was found of a sensor no longer counts: one that it rests on has been found otherwise since; SI and radians. */
export interface OutOfDate {
  readonly sensor: SensorName;
  readonly name: FindingName;
  /** What was taken for right, and what was found since. */
  readonly was: number;
  readonly now: number;
  readonly by: Evidence;
  /** The sensor's own numbers that it puts out of date. */
  readonly moved: readonly FindingName[];
}

/** Where a sensor stands. */
export interface SensorState {
  readonly sensor: SensorName;
  /** Empty where nothing was ever found of it. */
  readonly found: readonly StandingFinding[];
  /** The sensors that the first of them rests on, each with the file that it was taken from; undefined: what stood in the instruments. */
  readonly restsOn: readonly { readonly sensor: SensorName; readonly from: string | undefined }[];
  readonly outOfDate: readonly OutOfDate[];
}

/** M136. Changes below this do not put the wind out of date: they move it by less than some 0.2°. In the units of files; judgement. */
const MATTERS: Partial<Readonly<Record<string, number>>> = {
  deg: 0.5,
  kn: 0.1,
  ln: 0.01,
  "1": 0.01,
  "deg*kn2/deg": 1.5,
};

const leastThatMatters = (name: FindingName): number => {
  const unit = FINDING_UNITS[name];
  return siFromEdge(MATTERS[unit] ?? 0, unit);
};

const sameNumber = (one: Finding, other: Finding): boolean => one.name === other.name && one.of === other.of;

const contradict = (one: Finding, other: Finding): boolean =>
  Math.abs(one.value - other.value) > Math.hypot(one.half, other.half);

/** A number's value in settings; NaN for what has no place among them, and where the base is unknown. */
function valueIn({ base, active }: ActiveSettings, name: FindingName): number {
  if (base === "unknown corrections") return Number.NaN;
  const vector = vectorOf(active);
  const at = (parameter: FindingName): number =>
    vector[(PARAMETER_NAMES as readonly FindingName[]).indexOf(parameter)] ?? Number.NaN;
  if (name === "speed.atTypical")
    return typicalFactor(at("speed.intercept"), at("speed.gain"), TYPICAL_READINGS.speed).value;
  if (name === "anemometer.atTypical")
    return typicalFactor(at("anemometer.threshold"), at("anemometer.gain"), TYPICAL_READINGS.anemometer)
      .value;
  return at(name);
}

/** Numbers that both found. */
const shared = (one: Evidence, other: Evidence, isOwn: (finding: Finding) => boolean) =>
  one.findings.filter(isOwn).flatMap((finding) => {
    const counterpart = other.findings.find((candidate) => sameNumber(candidate, finding));
    return counterpart ? [[finding, counterpart] as const] : [];
  });

/** Of what found a sensor, the earliest first: the last stands, unless an earlier one that nothing since contradicts is known better. */
function standing(candidates: readonly Evidence[], isOwn: (finding: Finding) => boolean): Evidence {
  let best = candidates.at(-1)!;
  for (let at = candidates.length - 2; at >= 0; at--) {
    const earlier = candidates[at]!;
    const contradicted = candidates
      .slice(at + 1)
      .some((later) => shared(earlier, later, isOwn).some(([was, is]) => contradict(was, is)));
    if (contradicted) break;
    const sharper = shared(earlier, best, isOwn).reduce(
      (sum, [was, is]) => sum + Math.log(was.half / is.half),
      0,
    );
    if (sharper < 0) best = earlier;
  }
  return best;
}

/** The numbers of a sensor that stand: those of the evidence that stands, and what only others found, of the last that did. */
function standingNumbers(
  evidence: readonly Evidence[],
  isOwn: (finding: Finding) => boolean,
): readonly (readonly [Finding, Evidence])[] {
  const candidates = evidence.filter(({ findings }) => findings.some(isOwn));
  if (candidates.length === 0) return [];
  const best = standing(candidates, isOwn);
  const numbers = new Map<string, readonly [Finding, Evidence]>();
  for (const one of [best, ...candidates.toReversed()])
    for (const finding of one.findings.filter(isOwn))
      if (!numbers.has(keyOf(finding))) numbers.set(keyOf(finding), [finding, one]);
  return [...numbers.values()];
}

/** What was believed of a number when some evidence was worked out: its own finding, else what it reckoned with, else what stood in the instruments. */
function belief(evidence: Evidence, wanted: Finding): { readonly value: number; readonly half: number } {
  const own = evidence.findings.find((finding) => sameNumber(finding, wanted));
  return (
    own ?? evidence.believed?.(wanted.name) ?? { value: valueIn(evidence.settings, wanted.name), half: 0 }
  );
}

/** A change of one number by what matters moves another by so much of what matters there: it rests on it. Judgement. */
const RESTS = 0.5;

/** How far a change of one number reaches into another, both in what matters of them; NaN where only the sensors are known. */
const reach = ({ moves }: Evidence, name: FindingName, by: FindingName): number =>
  moves === undefined
    ? Number.NaN
    : Math.abs(moves(name, by)) * (leastThatMatters(by) / leastThatMatters(name));

/** The numbers that a finding rests on in its own evidence. */
function footing(name: FindingName, evidence: Evidence): readonly FindingName[] {
  const needed = evidence.restsOn(sensorOf(name));
  return PARAMETER_NAMES.filter((by) => needed.includes(sensorOf(by)))
    .map((by) => ({ by, share: reach(evidence, name, by) }))
    .filter(({ share }) => share >= RESTS)
    .sort((one, other) => other.share - one.share)
    .map(({ by }) => by);
}

/** What has been found otherwise since, of the sensors that a number rests on, by enough to move it. */
function outOfDateSince(
  own: Finding,
  evidence: Evidence,
  current: readonly (readonly [Finding, Evidence])[],
): readonly OutOfDate[] {
  const needed = evidence.restsOn(sensorOf(own.name));
  return current.flatMap(([finding, by]): readonly OutOfDate[] => {
    const of = sensorOf(finding.name);
    if (!needed.includes(of) || by.at <= evidence.at) return [];
    const was = belief(evidence, finding);
    const change = Math.abs(finding.value - was.value);
    const isOtherwise = change > Math.max(Math.hypot(finding.half, was.half), leastThatMatters(finding.name));
    const slope = evidence.moves?.(own.name, finding.name) ?? Number.NaN;
    const isMoved = Number.isNaN(slope) || Math.abs(slope) * change > leastThatMatters(own.name);
    return isOtherwise && isMoved
      ? [{ sensor: of, name: finding.name, was: was.value, now: finding.value, by, moved: [own.name] }]
      : [];
  });
}

/** The same change told once, with all that it moves. */
function together(reasons: readonly OutOfDate[]): readonly OutOfDate[] {
  const found = new Map<string, OutOfDate>();
  for (const reason of reasons) {
    const key = `${reason.name} ${reason.by.file}`;
    const before = found.get(key);
    found.set(key, before ? { ...before, moved: [...before.moved, ...reason.moved] } : reason);
  }
  return [...found.values()];
}

const keyOf = ({ name, of = "" }: Finding): string => `${name} ${of}`;

/**
 * M136. Where each sensor stands: of each of its numbers the last finding, or an earlier one that is known better and that nothing since
 * contradicts; whether it stands in the instruments; what it rests on; and whether that has been found otherwise since.
 *
 * @param evidence in the order in which it was sailed
 * @param present what is active in the instruments now
 * @returns one for each of SENSOR_NAMES. Never throws.
 *
 * @example
 * sensorStates([], boat.settings).every(({ found }) => found.length === 0) // true
 */
export function sensorStates(evidence: readonly Evidence[], present: ActiveSettings): readonly SensorState[] {
  const groups = SENSOR_NAMES.map((sensor) => {
    const names = new Set(
      evidence
        .flatMap(({ findings }) => findings.filter(({ name }) => sensorOf(name) === sensor))
        .map(({ of }) => of),
    );
    return [...names].flatMap((of) =>
      standingNumbers(evidence, (finding) => sensorOf(finding.name) === sensor && finding.of === of),
    );
  });
  const current = groups.flat();
  return SENSOR_NAMES.map((sensor, index): SensorState => {
    const own = groups[index]!;
    const reasons = own.map(([finding, by]) => outOfDateSince(finding, by, current));
    const found = own.map(([finding, by], place): StandingFinding => {
      const value = valueIn(present, finding.name);
      const toKeyIn = Math.abs(finding.value - value) > finding.half;
      const isOutOfDate = reasons[place]!.length > 0;
      const restsOn = footing(finding.name, by);
      return { finding, evidence: by, present: value, toKeyIn, isOutOfDate, restsOn };
    });
    const [first] = own;
    const basis = first?.[1];
    return {
      sensor,
      found,
      restsOn: (basis?.restsOn(sensor) ?? []).map((other) => ({
        sensor: other,
        from: basis?.findings.some(({ name }) => sensorOf(name) === other) ? basis.file : undefined,
      })),
      outOfDate: together(reasons.flat()),
    };
  });
}
