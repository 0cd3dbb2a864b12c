import { nearestWord } from "../calibration/nearestWord.ts";
import { UsageFailure } from "./failures.ts";

/** An option of a command: `value` names what follows it; a flag has none. */
export interface OptionShape {
  readonly value?: string;
  readonly required?: boolean;
  readonly meaning: string;
}

/** What a command takes. */
export interface CommandShape {
  readonly name: string;
  readonly purpose: string;
  /** Operands in their order; a name that ends in … may come several times and stands last, one in brackets may be left out. */
  readonly operands: readonly string[];
  readonly options: Readonly<Record<string, OptionShape>>;
}

/** What a command was given. */
export interface Given {
  readonly operands: readonly string[];
  readonly options: ReadonlyMap<string, string>;
}

/** How a command is called, in one line. */
export function callOf({ name, operands, options }: CommandShape): string {
  const words = Object.entries(options).map(([option, { value, required }]) => {
    const call = value === undefined ? `--${option}` : `--${option} ${value}`;
    return required ? call : `[${call}]`;
  });
  return ["bothtacks", name, ...operands, ...words].join(" ");
}

const failure = (shape: CommandShape, what: string): UsageFailure =>
  new UsageFailure(`${shape.name}: ${what}; call it as: ${callOf(shape)}`);

function unknownOption(shape: CommandShape, word: string): UsageFailure {
  const [name = ""] = word.split("=");
  const nearest = nearestWord(name.replace(/^-+/, ""), Object.keys(shape.options));
  return failure(shape, `unknown option ${name}${nearest ? ` (did you mean --${nearest}?)` : ""}`);
}

/** Reads one option and its value from the front of the arguments; returns how many of them it took. */
function readOption(shape: CommandShape, rest: readonly string[], options: Map<string, string>): number {
  const [word = "", following] = rest;
  const [name = "", ...joined] = word.replace(/^--/, "").split("=");
  const option = Object.hasOwn(shape.options, name) ? shape.options[name] : undefined;
  if (!option || !word.startsWith("--")) throw unknownOption(shape, word);
  if (options.has(name)) throw failure(shape, `--${name} is given twice`);
  if (option.value === undefined) {
    if (joined.length > 0) throw failure(shape, `--${name} takes no value`);
    options.set(name, "");
    return 1;
  }
  const value = joined.length > 0 ? joined.join("=") : following;
  if (value === undefined || value === "" || (joined.length === 0 && value.startsWith("--")))
    throw failure(shape, `--${name} needs a ${option.value}`);
  options.set(name, value);
  return joined.length > 0 ? 1 : 2;
}

function requireComplete(shape: CommandShape, { operands, options }: Given): void {
  const missing = shape.operands[operands.length];
  if (missing !== undefined && !missing.startsWith("["))
    throw failure(shape, `${missing.replace("…", "")} is missing`);
  const many = shape.operands.at(-1)?.endsWith("…") ?? false;
  const superfluous = many ? undefined : operands[shape.operands.length];
  if (superfluous !== undefined) throw failure(shape, `"${superfluous}" is one argument too many`);
  for (const [name, { required, value }] of Object.entries(shape.options))
    if (required && !options.has(name)) throw failure(shape, `--${name} ${value ?? ""} is missing`);
}

/**
 * Sorts a command's arguments into operands and options: `--name value`, `--name=value`, flags, and `--` after which
 * everything is an operand.
 *
 * @throws UsageFailure in one line that says what is wrong and how the command is called
 */
export function givenTo(shape: CommandShape, args: readonly string[]): Given {
  const operands: string[] = [];
  const options = new Map<string, string>();
  for (let at = 0; at < args.length; ) {
    const word = args[at] ?? "";
    if (word === "--") {
      operands.push(...args.slice(at + 1));
      break;
    }
    if (word.startsWith("-") && word !== "-") at += readOption(shape, args.slice(at), options);
    else {
      operands.push(word);
      at += 1;
    }
  }
  const given = { operands, options };
  requireComplete(shape, given);
  return given;
}
