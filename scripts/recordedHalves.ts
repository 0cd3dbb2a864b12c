import { hasMoved } from "../packages/core/src/judge/compare.ts";
import { parameterAmount, parameterInterval } from "../packages/core/src/report/parameterAmounts.ts";
import { degrees } from "../packages/core/src/units.ts";
import {
  type ComparedHalves,
  HALVED,
  type HalfOfRecording,
  recordedHalves,
} from "../tests/support/recordedHalves.ts";

/** Informed share from which a parameter is worth a line: a tenth of the prior's variance. */
const TOLD = 0.1;
const HALF_WIDTH = 1.96;

interface Known {
  readonly value: number;
  readonly sd: number;
}

const apart = (one: Known, other: Known): string =>
  (Math.abs(other.value - one.value) / Math.hypot(one.sd, other.sd)).toFixed(1);

const angle = ({ value, sd }: Known): string =>
  `${value < 0 ? "−" : "+"}${Math.abs(degrees(value)).toFixed(1)}° ± ${degrees(HALF_WIDTH * sd).toFixed(1)}°`;

function parameterLines({ halves }: ComparedHalves): readonly string[] {
  const [first, second] = halves.map(({ fit }) => fit);
  if (first?.status !== "solved" || second?.status !== "solved") return [];
  return first.parameters.flatMap((one, at) => {
    const other = second.parameters[at]!;
    if (one.informed < TOLD || other.informed < TOLD) return [];
    const cell = ({ value, sd }: Known): string =>
      `${parameterAmount(one.name, value)} ${parameterInterval(one.name, sd)}`;
    return [`| ${one.name} | ${cell(one)} | ${cell(other)} | ${apart(one, other)} |`];
  });
}

const whyNot = ({ fit }: HalfOfRecording): string =>
  fit.status === "solved" ? "calibrates" : (fit.reason.split(":")[0] ?? "");

function tableOf(name: string, compared: ComparedHalves): string {
  const [first, second] = compared.halves;
  const gap = (words: string, of: (half: HalfOfRecording) => Known): string =>
    `| tacks' disagreement, ${words} | ${angle(of(first))} | ${angle(of(second))} | ${apart(of(first), of(second))} |`;
  const { comparison } = compared;
  const together =
    comparison === undefined
      ? `| by itself | ${whyNot(first)} | ${whyNot(second)} | |`
      : `| all together | | | χ² ${comparison.joint.chiSquare.toFixed(1)} of ${comparison.joint.degreesOfFreedom}, probability ${comparison.joint.probability.toFixed(2)}: ${hasMoved(comparison) ? "something moved" : "nothing moved"} |`;
  return [
    `| ${name} | first half, ${first.rows} rows | second half, ${second.rows} rows | apart |`,
    "| --- | --- | --- | --- |",
    gap("uncorrected", ({ before }) => before),
    gap("corrected from both halves", ({ after }) => after),
    ...parameterLines(compared),
    together,
  ].join("\n");
}

/** The section of accuracy.md on the open recordings' halves. */
export async function halvesSection(): Promise<string> {
  const tables: string[] = [];
  for (const one of HALVED) tables.push(tableOf(one.name, await recordedHalves(one)));
  return `## Halves of the open recordings

Nobody knows the true corrections of these; but what is found from one half must agree with the other. Each recording is parted between two legs where either part has the most of the
tack that it has less of, and each part fitted by itself, with nothing known of the boat. Shown with 95 % intervals are the parameters of which both halves say something; *apart* is the
difference over the root of both variances.

${tables.join("\n\n")}
`;
}
