/** Signal K deltas as lines of JSON, for tests. */
export const delta = (
  values: Readonly<Record<string, unknown>>,
  {
    time = "2031-06-14T12:00:00.000Z",
    source = "can.115",
    context = "vessels.self" as string | undefined,
  } = {},
): string =>
  JSON.stringify({
    ...(context === undefined ? {} : { context }),
    updates: [
      {
        $source: source,
        timestamp: time,
        values: Object.entries(values).map(([path, value]) => ({ path, value })),
      },
    ],
  });
