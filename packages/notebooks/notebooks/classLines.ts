import {
  type BoatFaults,
  degrees,
  metresPerSecond,
  noFaults,
  type ParameterName,
  radians,
} from "@bothtacks/core";
import type { FoundSetting } from "@bothtacks/notebooks/simulated";

/** What a pupil has put wrong about the boat. */
export interface ClassFaults {
  /** The vane reads so much too far to starboard, °. */
  readonly offset: number;
  /** The log reads low by, %. */
  readonly logLow: number;
  /** The compass reads high by, °. */
  readonly compassHigh: number;
}

/** Leeway of the class's boat, deg·kn² a degree. */
const LEEWAY = 10;

/** What her paddle wheel loses before it turns, kn: as usual. */
const DEFICIT = 0.2;

/** The class's boat with faults; she makes leeway, and her sails bend the air by 3° close-hauled. Never throws. */
export const classBoat = ({ offset, logLow, compassHigh }: ClassFaults): BoatFaults => ({
  ...noFaults,
  speed: {
    ...noFaults.speed,
    deficit: metresPerSecond(DEFICIT),
    gainStarboard: 1 / (1 - logLow / 100),
    gainPort: 1 / (1 - logLow / 100),
  },
  compass: { ...noFaults.compass, a: radians(-compassHigh) },
  vane: { ...noFaults.vane, mastheadOffset: radians(offset), upwash: radians(3) },
  leeway: { coefficient: LEEWAY * metresPerSecond(1) ** 2, exponent: 2 },
});

/** The three questions: which setting answers, and how its number is turned into that of the fault. */
export const QUESTIONS: readonly {
  readonly fault: keyof ClassFaults;
  readonly words: string;
  readonly unit: string;
  readonly setting: ParameterName;
  readonly faultOf: (value: number) => number;
  readonly sdOf: (sd: number) => number;
}[] = [
  {
    fault: "offset",
    words: "masthead offset",
    unit: "°",
    setting: "vane.mastheadOffset",
    faultOf: degrees,
    sdOf: degrees,
  },
  {
    fault: "logLow",
    words: "log reads low",
    unit: " %",
    setting: "speed.gain",
    faultOf: (value) => 100 * (1 - Math.exp(-value)),
    sdOf: (sd) => 100 * sd,
  },
  {
    fault: "compassHigh",
    words: "compass reads high",
    unit: "°",
    setting: "compass.a",
    faultOf: (value) => -degrees(value),
    sdOf: degrees,
  },
];

/** What was set, what was found, and its standard deviation. */
export interface ClassAnswer {
  readonly set: number;
  readonly found: number;
  readonly sd: number;
}

/** A pupil's three answers, in the order of the questions. */
export interface PupilAnswers {
  readonly pupil: number;
  readonly answers: readonly ClassAnswer[];
}

/** A pupil's answers out of a fit. Never throws where the fit has the three settings. */
export const answersOf = (
  pupil: number,
  faults: ClassFaults,
  settings: readonly FoundSetting[],
): PupilAnswers => ({
  pupil,
  answers: QUESTIONS.map(({ fault, setting, faultOf, sdOf }) => {
    const found = settings.find(({ name }) => name === setting);
    return {
      set: faults[fault],
      found: faultOf(found?.value ?? Number.NaN),
      sd: sdOf(found?.sd ?? Number.NaN),
    };
  }),
});

/** A pupil's answers as a line of numbers, to be handed in. Never throws. */
export const lineOf = ({ pupil, answers }: PupilAnswers): string =>
  [pupil, ...answers.flatMap(({ set, found, sd }) => [set, found, sd].map((one) => one.toFixed(2)))].join(
    ", ",
  );

const NUMBERS = 1 + 3 * QUESTIONS.length;

/** What a class has handed in. */
export interface HandedIn {
  /** In the order of the pupils. */
  readonly all: readonly PupilAnswers[];
  /** What is wrong with lines that are none, in words; the others count. */
  readonly problems: readonly string[];
}

/** The lines that a class has handed in; blank ones are skipped. Of a pupil with two lines the later counts. Never throws. */
export function answersIn(text: string): HandedIn {
  const problems: string[] = [];
  const byPupil = new Map<number, PupilAnswers>();
  for (const [at, line] of text.split("\n").entries()) {
    if (line.trim() === "") continue;
    const numbers = line.split(/[,;\t]\s*/).map((part) => (part.trim() === "" ? Number.NaN : Number(part)));
    const [pupil = Number.NaN, ...rest] = numbers;
    if (numbers.length !== NUMBERS || numbers.some(Number.isNaN)) {
      problems.push(
        `Line ${at + 1} does not count: it must be ${NUMBERS} numbers with commas between, and is "${line.trim()}".`,
      );
      continue;
    }
    const answers = QUESTIONS.map((_, index) => {
      const [set = 0, found = 0, sd = 0] = rest.slice(3 * index);
      return { set, found, sd };
    });
    byPupil.set(pupil, { pupil, answers });
  }
  return { all: [...byPupil.values()].sort((one, other) => one.pupil - other.pupil), problems };
}
