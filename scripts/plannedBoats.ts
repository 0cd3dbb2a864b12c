/**
 * Boats fitted on an afternoon, then with an hour more of the plan made from that, or of rounds to windward and back: what is left of the
 * doubt of the worst parameter (M84).
 * node --conditions=bothtacks-source --import tsx scripts/plannedBoats.ts FIRST_SEED [BOATS]
 */
import { parameterInterval } from "../packages/core/src/report/parameterAmounts.ts";
import { plannedBoat, worstParameter } from "../tests/support/plannedSails.ts";

const first = Number(process.argv[2]);
const count = Number(process.argv[3] ?? 10);
if (!Number.isInteger(first) || !Number.isInteger(count))
  throw new RangeError("give the first seed, and how many boats");

const won = Array.from({ length: count }, (_, index) => {
  const boat = plannedBoat(first + index, 60);
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
});
console.log(`the plan left less: ${won.filter(Boolean).length} of ${count}`);
