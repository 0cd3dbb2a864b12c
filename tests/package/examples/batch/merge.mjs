// What many logs' legs say together: node merge.mjs FILE.jsonl… writes one JSON object.
import { readFile } from "node:fs/promises";

const files = process.argv.slice(2);
const texts = await Promise.all(files.map((file) => readFile(file, "utf8")));
const legs = texts.flatMap((text) =>
  text
    .split("\n")
    .filter(Boolean)
    .map((line) => JSON.parse(line)),
);

const sum = (values) => values.reduce((total, value) => total + value, 0);

/** Means over seconds; what a leg does not know counts for nothing. */
function mean(some, name) {
  const known = some.filter((leg) => leg[name] !== null);
  const seconds = sum(known.map((leg) => leg.seconds));
  return seconds === 0
    ? null
    : Number((sum(known.map((leg) => leg.seconds * leg[name])) / seconds).toFixed(3));
}

const groups = new Map();
for (const leg of legs) {
  const name = leg.kind === "motoring" ? "under power" : `${leg.tack} tack`;
  groups.set(name, [...(groups.get(name) ?? []), leg]);
}

const summary = {
  logs: new Set(legs.map(({ log }) => log)).size,
  legs: legs.length,
  groups: Object.fromEntries(
    [...groups].sort().map(([name, some]) => [
      name,
      {
        legs: some.length,
        hours: Number((sum(some.map(({ seconds }) => seconds)) / 3600).toFixed(3)),
        mean_stw_kn: mean(some, "stw_kn"),
        mean_wind_kn: mean(some, "wind_kn"),
      },
    ]),
  ),
};
process.stdout.write(`${JSON.stringify(summary, undefined, 2)}\n`);
