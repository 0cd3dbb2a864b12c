/** What a worker says to the page: how far it is, then how it ended. `Done` has a kind of its own. */
export type Said<Done> =
  | { readonly kind: "progress"; readonly what: string; readonly share: number }
  | { readonly kind: "failed"; readonly words: string }
  | Done;

/** What an error says, in words. Never throws. */
export const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

type Progress = Extract<Said<never>, { kind: "progress" }>;
type Failed = Extract<Said<never>, { kind: "failed" }>;

export const isProgress = (said: { readonly kind: string }): said is Progress => said.kind === "progress";
export const isFailed = (said: { readonly kind: string }): said is Failed => said.kind === "failed";
