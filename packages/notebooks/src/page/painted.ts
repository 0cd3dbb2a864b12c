/** When the page is painted next; soon, where nobody sees it, which is not painted then. */
const nextPaint = (): Promise<void> =>
  new Promise((resolve) => {
    if (document.hidden) setTimeout(resolve);
    else requestAnimationFrame(() => setTimeout(resolve));
  });

let last = Promise.resolve();

/**
 * When what stands on the page has been painted. Whoever waits goes on after a paint of their own, so that two pieces of work do not
 * keep the page between them.
 */
export function painted(): Promise<void> {
  last = last.then(nextPaint);
  return last;
}
