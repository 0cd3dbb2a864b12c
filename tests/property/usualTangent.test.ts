/**
 * How the fit's states change with its parameters (M193) against differences of the states themselves (M27, M50), each taken whole on either
 * side: a way of its own, that knows nothing of which step a parameter acts on.
 *
 * MARGIN: 10⁻⁶ of what a parameter does within its prior's width, or of the unit of the quantity: differences to one side over 10⁻⁶ of that
 * width are off by less than its bend, those to both sides over 10⁻³ by the square of that.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { RecordingChannels } from "../../packages/core/src/fit/fitContext.ts";
import { circumstancesOf, impliedStates } from "../../packages/core/src/fit/impliedState.ts";
import { LAW_ERROR_NAMES, priorMeans, priorSds } from "../../packages/core/src/fit/priors.ts";
import { type RowEvidence, statesOfLegs, usualStates } from "../../packages/core/src/fit/rowEvidence.ts";
import {
  isOfMotion,
  SERIES_NAMES,
  seriesDifference,
  seriesSlope,
  seriesValue,
} from "../../packages/core/src/fit/sailingSeries.ts";
import { lawErrorsOf, settingsOf } from "../../packages/core/src/fit/settingsVector.ts";
import { UsualTangent } from "../../packages/core/src/fit/usualTangent.ts";
import { PARAMETER_NAMES } from "../../packages/core/src/sensors/parameterNames.ts";
import { radians } from "../../packages/core/src/units.ts";
import { handmadeRow } from "../support/handmadeRows.ts";

const NAMES = [...PARAMETER_NAMES, ...LAW_ERROR_NAMES];
const SDS = priorSds();
const WIDE = 1e-3;
const WITHIN = 1e-6;

const ALL: RecordingChannels = { compass: true, paddle: true, gps: true, heel: true };
const LACKING: readonly (readonly [string, RecordingChannels])[] = [
  ["all sensors", ALL],
  ["no GPS", { ...ALL, gps: false }],
  ["no paddle wheel", { ...ALL, paddle: false }],
  ["no compass", { ...ALL, compass: false }],
  ["no heel sensor", { ...ALL, heel: false }],
];

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
/** On either tack, clear of the bow and of dead downwind, where a gain or a sign jumps; faster than where the laws are held. */
const readings = fc
  .tuple(
    fc.constantFrom(-1, 1),
    between(20, 160),
    between(4, 12),
    between(3.2, 5),
    between(0, 360),
    between(2, 25),
    between(0, 360),
    between(1, 5),
  )
  .map(([tack, awa, aws, stw, heading, heel, course, sog]) =>
    Float64Array.of(
      radians(tack * awa),
      aws,
      stw,
      radians(heading),
      radians(-tack * heel),
      sog * Math.sin(radians(course)),
      sog * Math.cos(radians(course)),
    ),
  );

const rows = fc.record({
  nominal: readings,
  ofLeg: readings,
  kind: fc.constantFrom("sailing" as const, "motoring" as const),
  sinceMiddle: between(-7200, 7200),
});

const moves = fc.array(between(-1, 1), { minLength: NAMES.length, maxLength: NAMES.length });

describe.each(LACKING)("slopes of what is usual for a row (M193): %s", (_, channels) => {
  it("are those of the states, for every parameter and every error of a law", () => {
    fc.assert(
      fc.property(rows, moves, ({ kind, sinceMiddle, nominal, ofLeg }, by) => {
        const row = handmadeRow({ kind, leg: 0, at: 0, mean: { heel: nominal[4]! } });
        const evidence: readonly RowEvidence[] = [
          {
            row,
            time: 0,
            circumstances: { ...circumstancesOf(row, channels), sinceMiddle, variation: radians(-3) },
            points: [],
            nominal,
            ofLeg,
          },
        ];
        const vector = priorMeans().map((mean, index) => mean + by[index]! * SDS[index]!);
        const valuesAt = (at: Float64Array): readonly number[] => {
          const undoing = [settingsOf(at, -1), channels, lawErrorsOf(at)] as const;
          const [wind, motion] = [usualStates, statesOfLegs].map((statesOf) =>
            statesOf(evidence, ...undoing, impliedStates(1)),
          );
          return [
            ...SERIES_NAMES.map((name) => seriesValue(name, (isOfMotion(name) ? motion : wind)!, 0)),
            wind!.apparentAngle[0]!,
            wind!.heel[0]!,
          ];
        };
        const tangent = new UsualTangent(
          { evidence, channels, heelSign: -1, free: [...NAMES.keys()] },
          vector,
        );
        tangent.goTo(0);
        NAMES.forEach((parameter, column) => {
          const sd = SDS[column]!;
          const [up, down] = [WIDE, -WIDE].map((step) =>
            valuesAt(vector.with(column, vector[column]! + step * sd)),
          );
          const slopes = tangent.slopes(column);
          const found = [
            ...SERIES_NAMES.map((name) => seriesSlope(name, slopes)),
            slopes.apparentAngle,
            slopes.heel,
          ];
          found.forEach((slope, place) => {
            // the last two are angles, as a direction is
            const name = SERIES_NAMES[place] ?? "direction";
            const wanted = seriesDifference(name, up![place]!, down![place]!) / (2 * WIDE);
            const what = `${name} ${place} by ${parameter}`;
            if (Number.isNaN(wanted)) expect(slope, what).toBeNaN();
            else
              expect(Math.abs(sd * slope - wanted), what).toBeLessThan(
                WITHIN * Math.max(1, Math.abs(wanted)),
              );
          });
        });
      }),
    );
  });
});

describe("a paddle wheel at rest", () => {
  it("hides how the current changes, and not how the wind over the ground does", () => {
    const still = Float64Array.of(radians(40), 7, Number.NaN, radians(80), radians(-12), 2, 1);
    const row = handmadeRow({ leg: 0, at: 0, mean: { heel: radians(-12) } });
    const evidence = [
      { row, time: 0, circumstances: circumstancesOf(row, ALL), points: [], nominal: still, ofLeg: still },
    ];
    const tangent = new UsualTangent(
      { evidence, channels: ALL, heelSign: 1, free: [...NAMES.keys()] },
      priorMeans(),
    );
    tangent.goTo(0);
    const { windEast, windNorth, currentEast } = tangent.slopes(NAMES.indexOf("compass.a"));
    expect(Math.hypot(windEast, windNorth)).toBeGreaterThan(1);
    expect(currentEast).toBeNaN();
  });
});
