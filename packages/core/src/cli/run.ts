import { nearestWord } from "../calibration/nearestWord.ts";
import { shown } from "../report/shown.ts";
import { givenTo } from "./arguments.ts";
import type { Command, Surroundings } from "./command.ts";
import { COMMANDS } from "./commands/index.ts";
import { EXIT, failureOf, UsageFailure } from "./failures.ts";
import { helpFor, usage } from "./usage.ts";
import { VERSION } from "./version.ts";

const HELP = ["help", "--help", "-h"];

function commandNamed(name: string): Command {
  const command = COMMANDS.find(({ shape }) => shape.name === name);
  if (command) return command;
  const nearest = nearestWord(
    name,
    COMMANDS.map(({ shape }) => shape.name),
  );
  const hint = nearest ? ` (did you mean ${nearest}?)` : "";
  throw new UsageFailure(`unknown command "${name}"${hint}; "bothtacks help" lists the commands`);
}

function help(name: string | undefined): string {
  return name === undefined ? usage(COMMANDS.map(({ shape }) => shape)) : helpFor(commandNamed(name).shape);
}

async function dispatch(args: readonly string[], surroundings: Surroundings): Promise<number> {
  const [first, ...rest] = args;
  if (first === undefined)
    throw new UsageFailure('no command was given; "bothtacks help" lists the commands');
  const printed = (text: string): number => {
    surroundings.print(text);
    return EXIT.done;
  };
  if (HELP.includes(first)) return printed(help(rest[0]));
  if (first === "--version") return printed(`${VERSION}\n`);
  const command = commandNamed(first);
  if (rest.some((word) => word !== "help" && HELP.includes(word))) return printed(helpFor(command.shape));
  return (await command.execute(givenTo(command.shape, rest), surroundings)) ?? EXIT.done;
}

/**
 * Runs the command line.
 *
 * @param args what stands behind the program's name
 * @returns the exit status: 0 done, 1 the input cannot answer, 2 called wrongly, 3 something has moved (`compare`), 130 interrupted. Never throws; whatever
 * goes wrong is one line for `complain`.
 */
export async function run(args: readonly string[], around: Surroundings): Promise<number> {
  const surroundings: Surroundings = {
    ...around,
    print: (text) => around.print(shown(text)),
    complain: (text) => around.complain(shown(text)),
  };
  try {
    return await dispatch(args, surroundings);
  } catch (error) {
    const { status, line } = failureOf(error);
    surroundings.complain(`bothtacks: ${line}\n`);
    return status;
  }
}
