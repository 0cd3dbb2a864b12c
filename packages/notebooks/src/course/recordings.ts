/// <reference path="./gzipModules.d.ts" />
import bay from "../../../../datasets/recorded/bay-start-2008.nmea?gzip";
import bayLicence from "../../../../datasets/recorded/bay-start-2008.nmea.LICENCE.txt?raw";
import heel from "../../../../datasets/recorded/heel-sentences-2018.nmea?gzip";
import heelLicence from "../../../../datasets/recorded/heel-sentences-2018.nmea.LICENCE.txt?raw";
import apache from "../../../../datasets/recorded/LICENSES/Apache-2.0.txt?raw";
import bsd from "../../../../datasets/recorded/LICENSES/BSD-2-Clause-gpsd.txt?raw";
import mit from "../../../../datasets/recorded/LICENSES/MIT-byc2018-awarmack.txt?raw";
import lake from "../../../../datasets/recorded/lake-evening-2018.nmea?gzip";
import lakeLicence from "../../../../datasets/recorded/lake-evening-2018.nmea.LICENCE.txt?raw";
import river from "../../../../datasets/recorded/river-2016-corrupted.nmea?gzip";
import riverLicence from "../../../../datasets/recorded/river-2016-corrupted.nmea.LICENCE.txt?raw";

/** An open recording by others, with what its licence asks to be told. */
export interface OpenRecording {
  /** Name of the log. */
  readonly name: string;
  /** What it is called on the page. */
  readonly words: string;
  /** Source, commit, path, copyright and what was changed, by name. */
  readonly credit: Readonly<Record<string, string>>;
  /** The licence's own text. */
  readonly licence: string;
  readonly file: () => Promise<File>;
}

const LICENCES: Readonly<Record<string, string>> = { "Apache-2.0": apache, "BSD-2-Clause": bsd, MIT: mit };

/** "Source:  …" line by line. */
const creditIn = (text: string): OpenRecording["credit"] =>
  Object.fromEntries(
    text
      .split("\n")
      .map((line) => /^(\w+):\s+(.*?)\s*$/.exec(line))
      .flatMap((found) => (found ? [[found[1]!, found[2]!]] : [])),
  );

function recording(name: string, words: string, address: string, note: string): OpenRecording {
  const credit = creditIn(note);
  const licence = LICENCES[credit.SPDX ?? ""];
  if (licence === undefined) throw new RangeError(`recording: the licence of ${name} must be there`);
  return {
    name,
    words,
    credit,
    licence,
    file: async () => new File([await (await fetch(address)).arrayBuffer()], `${name}.gz`),
  };
}

/** In the order in which the lesson opens them. */
export const RECORDINGS: readonly OpenRecording[] = [
  recording("lake-evening-2018.nmea", "twelve minutes on a lake", lake, lakeLicence),
  recording("heel-sentences-2018.nmea", "two minutes and a half with a heel sensor", heel, heelLicence),
  recording("river-2016-corrupted.nmea", "a river, over a bad line", river, riverLicence),
  recording("bay-start-2008.nmea", "a start in a tidal bay", bay, bayLicence),
];
