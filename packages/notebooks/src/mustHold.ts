/**
 * Keeps prose and numbers together: a cell that claims what is not so fails, and with it the tests.
 *
 * @param claim what the prose says
 * @throws Error where it does not hold
 */
export function mustHold(claim: string, holds: boolean): void {
  if (!holds) throw new Error(`The text says what is not so: ${claim}`);
}
