import { watch } from "node:fs";

/** An editor that saves makes several changes at once, ms. */
const TOGETHER = 80;

/**
 * Calls back when something in the folders has changed, once for changes close together.
 *
 * @returns ends the watch
 * @throws Error where a folder is not there
 */
export function watched(folders: readonly string[], changed: () => void): () => void {
  let waiting: NodeJS.Timeout | undefined;
  const watchers = folders.map((folder) =>
    watch(folder, { recursive: true }, () => {
      clearTimeout(waiting);
      waiting = setTimeout(changed, TOGETHER);
    }),
  );
  return () => {
    clearTimeout(waiting);
    for (const watcher of watchers) watcher.close();
  };
}
