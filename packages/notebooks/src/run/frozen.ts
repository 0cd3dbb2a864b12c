const isPlain = (value: unknown): value is object => {
  if (typeof value !== "object" || value === null) return false;
  const kind: unknown = Object.getPrototypeOf(value);
  return Array.isArray(value) || kind === Object.prototype || kind === null;
};

/** Freezes plain objects and lists, all that is plain inside them too; leaves anything else alone. Never throws. */
export function freezePlain(value: unknown): void {
  const waiting = [value];
  while (waiting.length > 0) {
    const one = waiting.pop();
    if (!isPlain(one) || Object.isFrozen(one)) continue;
    Object.freeze(one);
    waiting.push(...Object.values(one).filter(isPlain));
  }
}
