/**
 * A file or folder that cannot be read or written: which, and why in words.
 *
 * @example
 * new FileProblem("log.nmea", "is no file").message // "log.nmea: is no file"
 */
export class FileProblem extends Error {
  override readonly name = "FileProblem";

  constructor(
    readonly path: string,
    readonly reason: string,
    options?: ErrorOptions,
  ) {
    super(`${path}: ${reason}`, options);
  }
}

/** What the system's error codes mean to someone who named a file. */
const REASONS: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file or folder",
  EISDIR: "is a folder",
  ENOTDIR: "a part of this path is a file, not a folder",
  EACCES: "there is no permission",
  EPERM: "there is no permission",
  EROFS: "the disk cannot be written",
  ENOSPC: "the disk is full",
  EDQUOT: "the disk space that you may use is full",
  ENOTEMPTY: "another run wrote there meanwhile",
  EFBIG: "the file would be larger than is allowed",
  EMFILE: "too many files are open",
  ENAMETOOLONG: "the name is too long",
  ELOOP: "links lead in a circle",
};

const reasonOf = (cause: unknown): string => {
  if (typeof cause === "string") return cause;
  if (!(cause instanceof Error)) return "cannot be used";
  const code = "code" in cause ? String(cause.code) : "";
  return REASONS[code] ?? `cannot be used (${code || cause.message})`;
};

/** The problem with a path: a reason in words, or an error of the system put into words. Never throws. */
export const fileProblem = (path: string, cause: unknown): FileProblem =>
  cause instanceof FileProblem
    ? cause
    : new FileProblem(path, reasonOf(cause), cause instanceof Error ? { cause } : undefined);
