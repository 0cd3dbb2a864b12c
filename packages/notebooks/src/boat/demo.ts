import { boatFromFile } from "@bothtacks/core";
import boatText from "../../../../datasets/demo/boat.json?raw";
import recording from "../../../../datasets/demo/demo.nmea.gz?url&inline";
import type { Demo } from "./bench.ts";

const NAME = "demo.nmea.gz";

/** The invented recording that comes with the page, and its boat. */
export async function demo(): Promise<Demo> {
  const bytes = await (await fetch(recording)).arrayBuffer();
  return { file: new File([bytes], NAME), boat: boatFromFile(boatText, "boat.json") };
}
