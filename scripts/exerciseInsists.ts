import { drawnRuns, type Otherwise, twice } from "./exerciseCases.ts";

type Sensor = Extract<ReturnType<typeof drawnRuns>["found"], { status: "solved" }>;

/** How often something is said of runs that are drawn again and again, in per cent. */
function share(
  drawn: number,
  speeds: readonly number[],
  otherwise: Otherwise,
  says: (found: Sensor) => boolean,
): string {
  let [said, solved] = [0, 0];
  for (let trial = 0; trial < drawn; trial++) {
    const { found } = drawnRuns(speeds, otherwise);
    if (found.status === "unsolved") continue;
    solved++;
    if (says(found)) said++;
  }
  return ((100 * said) / solved).toFixed(1);
}

/** Speeds of runs that tell the two laws of the deficit apart hardly, and well. */
const NARROW = twice(3.5, 5, 6.5);
const WIDE = twice(2.5, 2.5, 4.5, 4.5, 7.5, 7.5);
const HEELED = twice(5, 5, 6.5, 6.5);

/** How often the gain of a speed sensor is let depend on heel or on speed, where it does and where it does not. */
export function insistsTable(drawn: number): string {
  const heel = [0, 0.03, 0.06].map((heeled) =>
    share(drawn, HEELED, { heeled }, ({ heelInsists }) => heelInsists),
  );
  const law = [NARROW, WIDE].flatMap((speeds) =>
    [false, true].map((falls) => share(drawn, speeds, { falls }, (found) => found.law === "falling deficit")),
  );
  return `How often the runs insist (M123), of ${drawn}:

| the gain is let depend | where it does not | where it does |
| --- | --- | --- |
| on heel: four runs upright, four at 20° | ${heel[0]} % | ${heel[1]} % (by 3 %), ${heel[2]} % (by 6 %) |
| on speed, a deficit that falls: three speeds twice | ${law[0]} % | ${law[1]} % |
| on speed: 2.5, 4.5 and 7.5 kn, four each | ${law[2]} % | ${law[3]} % |`;
}
