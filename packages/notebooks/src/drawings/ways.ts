/** A place in the drawing, whose y runs downward. */
export interface Place {
  readonly x: number;
  readonly y: number;
}

/** An arrow in the drawing: its ends, its length and the unit vector along it. */
export interface Way {
  readonly start: Place;
  readonly end: Place;
  readonly length: number;
  readonly along: Place;
}

/** Shorter than this an arrow is not drawn. */
export const SHORTEST = 1;

/** The way from one place to another; without a direction where they are the same. Never throws. */
export function wayBetween(start: Place, end: Place): Way {
  const length = Math.hypot(end.x - start.x, end.y - start.y);
  return { start, end, length, along: { x: (end.x - start.x) / length, y: (end.y - start.y) / length } };
}

/** The place so far along a way, as a share of it. Never throws. */
export const placeOn = ({ start, end }: Way, share: number): Place => ({
  x: start.x + share * (end.x - start.x),
  y: start.y + share * (end.y - start.y),
});
