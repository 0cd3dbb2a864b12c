/**
 * Troubles in a navigator's words: what, when, how much, and what was done.
 * INPUTS: troubles as plain values; what the sentences must say is written down here by hand.
 */
import { describe, expect, it } from "vitest";
import { sensorTroubleWords } from "../../packages/core/src/report/troubleWords.ts";
import type { Trouble } from "../../packages/core/src/sailing/trouble.ts";
import { metresPerSecond, radians } from "../../packages/core/src/units.ts";
import { solvedAnswerFixture } from "../support/answerFixture.ts";

const { answer } = solvedAnswerFixture();
const NOON = Date.UTC(2031, 5, 14, 12) / 1000;
const recording = { ...answer.recording, start: NOON, end: NOON + 3 * 3600 };
const leg = (start: number, end: number) => ({ ...answer.legs[0]!, start: NOON + start, end: NOON + end });
const legs = [leg(0, 3000), leg(9000, 10000)];

const trouble = (one: Partial<Trouble>): Trouble => ({
  kind: "frozen",
  channel: "awa",
  start: NOON + 6120,
  end: NOON + 6900,
  size: 0,
  remedy: "rows left out",
  ...one,
});

const said = (...troubles: readonly Trouble[]) => sensorTroubleWords({ recording, legs, troubles });

describe("the words for a trouble", () => {
  it("of a fouled wheel", () => {
    expect(said(trouble({ kind: "fouled", channel: "stw", size: 0.88 }))).toEqual([
      "The paddle wheel read 12 % low from 13:42 to 13:55 UTC, probably weed: those minutes are left out.",
    ]);
  });

  it("of wind angle and wind speed that froze together, in one sentence", () => {
    const speed = trouble({ channel: "aws", size: metresPerSecond(13.4), start: NOON + 6123 });
    expect(said(trouble({ size: radians(-29) }), speed)).toEqual([
      "The wind angle and the wind speed stood still at −29° and 13.4 kn from 13:42 to 13:55 UTC while the boat moved: those minutes are left out.",
    ]);
  });

  it("of a sensor that froze most of the time", () => {
    expect(said(trouble({ channel: "heel", size: radians(3), remedy: "channel left out" }))[0]).toMatch(
      /most of the recording, so the heel sensor is left out altogether/,
    );
  });

  it("of a compass thrown for a while, and for good", () => {
    const thrown = trouble({ kind: "turned", channel: "heading", size: radians(-8.04) });
    expect(said(thrown)[0]).toMatch(/^The compass read 8\.0° less from 13:42 to 13:55 UTC than in the rest/);
    expect(said({ ...thrown, end: NOON + 10800 })[0]).toMatch(
      /^From 13:42 UTC on the compass read 8\.0° less than before.* count for the compass as it was before/,
    );
    expect(said({ ...thrown, start: NOON, size: radians(8) })[0]).toMatch(
      /^Up to 13:55 UTC the compass read 8\.0° more than afterwards.* as it was afterwards/,
    );
  });

  it("of a heel sensor that is set right", () => {
    const knocked = trouble({ kind: "turned", channel: "heel", size: radians(5), remedy: "set right" });
    expect(said(knocked)[0]).toMatch(
      /5\.0° further to starboard from .*: those readings are set right by that\.$/,
    );
    expect(said({ ...knocked, end: NOON + 10800 })[0]).toMatch(
      /its readings from then on are set right by that/,
    );
  });

  it("of a vane, by the side that it reads to", () => {
    expect(said(trouble({ kind: "turned", size: radians(7) }))[0]).toMatch(/7\.0° further to starboard/);
    expect(said(trouble({ kind: "turned", size: radians(-7) }))[0]).toMatch(/7\.0° further to port/);
  });

  it("of a wheel that stopped, of bursts, of two sensors", () => {
    const words = said(
      trouble({ kind: "stopped", channel: "stw" }),
      trouble({ kind: "spikes", size: 49, remedy: "seconds left out" }),
      trouble({ kind: "mixed", size: radians(5.9), remedy: "nothing left out" }),
    );
    expect(words[0]).toMatch(/stood at 0 .* probably weed/);
    expect(words[1]).toMatch(/far out in 49 seconds .* those seconds are left out/);
    expect(words[2]).toMatch(
      /Two sensors told the wind angle .* 5\.9° apart: .* mean of the two; silence one/,
    );
  });

  it("with dates where the recording is of several days", () => {
    const days = { ...recording, end: NOON + 3 * 86400 };
    const [words] = sensorTroubleWords({
      recording: days,
      legs,
      troubles: [trouble({ kind: "stopped", channel: "stw" })],
    });
    expect(words).toMatch(/from 2031-06-14 13:42 to 2031-06-14 13:55 UTC/);
  });

  it("is nothing where nothing happened", () => {
    expect(said()).toEqual([]);
    expect(sensorTroubleWords({ recording, legs })).toEqual([]);
  });
});
