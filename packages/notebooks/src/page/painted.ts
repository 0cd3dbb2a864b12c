/** When what stands on the page has been painted; soon, where nobody sees the page, which is not painted then. */
export const painted = (): Promise<void> =>
  new Promise((resolve) => {
    if (document.hidden) setTimeout(resolve);
    else requestAnimationFrame(() => setTimeout(resolve));
  });
