/**
 * Boats fitted on an afternoon, then with an hour more of the plan made from that, or of rounds to windward and back: what is left of the
 * doubt of the worst parameter (M84).
 * node --conditions=bothtacks-source --import tsx scripts/plannedBoats.ts FIRST_SEED [BOATS]
 */
import { parameterInterval } from "../packages/core/src/report/parameterAmounts.ts";
import { type PlannedBoat, plannedBoat, worstParameter } from "../tests/support/plannedSails.ts";

const first = Number(process.argv[2]);
const count = Number(process.argv[3] ?? 10);
if (!Number.isInteger(first) || !Number.isInteger(count))
  throw new RangeError("give the first seed, and how many boats");

function planWins(seed: number): boolean | undefined {
  try {
    return shown(plannedBoat(seed, 60));
  } catch (error) {
    console.log(`${seed}: ${String(error)}`);
    return undefined;
  }
}

/** Prints a boat; whether the plan left less. */
function shown(boat: PlannedBoat): boolean {
  const at = worstParameter(boat);
  const { name } = boat.before.parameters[at]!;
  const [before, planned, rounds] = [boat.before, boat.planned, boat.rounds].map(
    ({ parameters }) => parameters[at]!.sd,
  ) as [number, number, number];
  const said = [before, boat.plan.parameters[at]!.after, planned, rounds].map((sd) =>
    parameterInterval(name, sd),
  );
  console.log(`${boat.seed}: ${boat.plan.exercises.map((one) => one.name).join(", ")}`);
  console.log(`  ${name}: ${said[0]}; expected ${said[1]}, planned ${said[2]}, rounds ${said[3]}`);
  return planned < rounds;
}

const won = Array.from({ length: count }, (_, index) => planWins(first + index)).filter(
  (wins) => wins !== undefined,
);
console.log(`the plan left less: ${won.filter(Boolean).length} of ${won.length}`);
