import { closeSync, openSync, writeSync } from "node:fs";
import {
  hdgSentence,
  mwvSentence,
  rmcSentence,
  vhwSentence,
  xdrAttitudeSentence,
} from "../../packages/core/src/recording/nmea0183Writer.ts";
import { radians } from "../../packages/core/src/units.ts";
import { uniform } from "./uniform.ts";

/** One sentence in so many gets a wrong checksum. */
const SENTENCES_TO_A_FAULT = 10_000;

/** Sentences written at once. */
const BLOCK = 8192;

const START = Date.UTC(2031, 5, 14, 10) / 1000;

/** The sentences of a boat with a GPS at 10 Hz, wind, log and compass at 5 Hz and a heel sensor at 10 Hz, one after the other. */
function* sentences(count: number): Generator<string> {
  const random = uniform(20310614);
  const angle = () => random() * 2 * Math.PI;
  const speed = (most: number) => random() * most;
  for (let n = 0; n < count; n++) {
    switch (n % 8) {
      case 0:
      case 4:
        yield rmcSentence({
          time: START + Math.floor(n / 4) / 10,
          latitude: radians(50.5 + random() / 60),
          longitude: radians(-1.2 - random() / 60),
          sog: speed(6),
          cog: angle(),
          variation: Number.NaN,
        });
        break;
      case 1:
        yield mwvSentence({ angle: angle(), speed: speed(15), reference: "R" });
        break;
      case 2:
        yield mwvSentence({ angle: angle(), speed: speed(15), reference: "T" });
        break;
      case 3:
        yield vhwSentence({ stw: speed(6), headingMagnetic: angle() });
        break;
      case 5:
        yield hdgSentence({ heading: angle(), variation: radians(-1.2) });
        break;
      default:
        yield xdrAttitudeSentence({ heel: random() - 0.5, pitch: (random() - 0.5) / 5 });
    }
  }
}

/** A sentence whose last digit of the checksum is another. */
const spoilt = (sentence: string): string => sentence.slice(0, -1) + (sentence.endsWith("0") ? "1" : "0");

/** Writes a log of so many sentences, and returns its size in bytes. */
export function generateLog(path: string, count: number): number {
  const file = openSync(path, "w");
  let [bytes, n] = [0, 0];
  let block: string[] = [];
  const flush = () => {
    bytes += writeSync(file, block.join(""));
    block = [];
  };
  for (const sentence of sentences(count)) {
    n++;
    block.push(n % SENTENCES_TO_A_FAULT === 0 ? spoilt(sentence) : sentence, "\r\n");
    if (n % BLOCK === 0) flush();
  }
  flush();
  closeSync(file);
  return bytes;
}
