import { boatFromFile } from "@bothtacks/core";
import boatText from "../../../../datasets/demo/boat.json?raw";
import recording from "../../../../datasets/demo/demo.nmea.gz?url&inline";
import type { Demo } from "./opening.ts";

const NAME = "demo.nmea.gz";

/** The bytes of a data address in base 64. */
function bytesOf(address: string): Uint8Array<ArrayBuffer> {
  const binary = atob(address.slice(address.indexOf(",") + 1));
  return Uint8Array.from(binary, (sign) => sign.charCodeAt(0));
}

/** The invented recording that comes with the page, and its boat. Never throws. */
export const demo = (): Demo => ({
  file: new File([bytesOf(recording)], NAME),
  boat: boatFromFile(boatText, "boat.json"),
});
