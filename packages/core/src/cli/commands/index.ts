import type { Command } from "../command.ts";
import { apply } from "./apply.ts";
import { calibrate } from "./calibrate.ts";
import { check } from "./check.ts";
import { columns } from "./columns.ts";
import { compare } from "./compare.ts";
import { entered } from "./entered.ts";
import { exercise } from "./exercise.ts";
import { exercises } from "./exercises.ts";
import { plan } from "./plan.ts";
import { simulate } from "./simulate.ts";
import { state } from "./state.ts";

/** Every command, in the order of the work. */
export const COMMANDS: readonly Command[] = [
  columns,
  check,
  calibrate,
  apply,
  compare,
  plan,
  exercises,
  exercise,
  entered,
  state,
  simulate,
];
