import { homedir } from "node:os";
import { isAbsolute, join } from "node:path";

const NAME = "bothtacks";

/**
 * Where what was found in logs is kept: what `BOTHTACKS_CACHE` names, else a folder of ours in the place for caches: what
 * `XDG_CACHE_HOME` names, or what the system has.
 *
 * @see XDG Base Directory Specification, version 0.8: a relative path is invalid and to be ignored; ~/.cache unless set
 * @returns never throws
 */
export function cacheFolder(env: NodeJS.ProcessEnv, platform: NodeJS.Platform): string {
  const { BOTHTACKS_CACHE: own, XDG_CACHE_HOME: caches, LOCALAPPDATA: local } = env;
  if (own) return own;
  if (caches && isAbsolute(caches)) return join(caches, NAME);
  if (platform === "darwin") return join(homedir(), "Library", "Caches", NAME);
  if (platform === "win32" && local) return join(local, NAME, "Cache");
  return join(homedir(), ".cache", NAME);
}
