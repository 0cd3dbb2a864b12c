import { html, type Markup, NOTHING, plain } from "@bothtacks/core/page";
import { arrowNames, type WrittenName } from "./arrowNames.ts";
import { type Place, SHORTEST, type Way, wayBetween } from "./ways.ts";

/** A place or a way in the picture: to the right and up, in the picture's unit. */
export interface Point {
  readonly right: number;
  readonly up: number;
}

/** What an arrow stands for; each kind has its own line as well as its own colour. */
export type ArrowKind = "trueWind" | "feltWind" | "groundWind" | "boat" | "current";

export interface Arrow {
  readonly kind: ArrowKind;
  readonly from: Point;
  readonly to: Point;
  /** Stands beside the arrow. */
  readonly label: string;
}

export interface Hull {
  readonly at: Point;
  /** Where the bow points, degrees clockwise from up. */
  readonly bow: number;
  /** Drawn in outline only: where the boat is not yet, or was. */
  readonly isGhost?: boolean;
}

export interface Picture {
  /** What is to be seen, for those who cannot see it. */
  readonly label: string;
  /** What is up: the bow has port and starboard beside it, north has the other quarters. */
  readonly up: "bow" | "north";
  /** Knots from the middle to the outermost ring. */
  readonly reach: number;
  readonly arrows: readonly Arrow[];
  readonly hulls: readonly Hull[];
  /** Puffs of wind. */
  readonly puffs?: readonly Point[];
  /** Places that can be dragged. */
  readonly handles?: readonly Point[];
  /** Lines of sight. */
  readonly sights?: readonly (readonly [Point, Point])[];
}

/** The way of so many knots toward a direction, degrees clockwise from up; no knots need no direction. Never throws. */
export const toward = (direction: number, speed: number): Point =>
  speed === 0
    ? { right: 0, up: 0 }
    : {
        right: speed * Math.sin((direction * Math.PI) / 180),
        up: speed * Math.cos((direction * Math.PI) / 180),
      };

/** One way after the other. Never throws. */
export const after = (...ways: readonly Point[]): Point => ({
  right: ways.reduce((sum, { right }) => sum + right, 0),
  up: ways.reduce((sum, { up }) => sum + up, 0),
});

/** So many times a way. Never throws. */
export const times = (factor: number, { right, up }: Point): Point => ({
  right: factor * right,
  up: factor * up,
});

const RADIUS = 180;
const WIDTH = 430;
/** A page on a phone leaves so much free beside a drawing that fills it. */
const MARGIN = 14;
const HEAD = 13;

/** From the picture's unit to that of the drawing. */
type Placed = (point: Point) => Place;

const at = (value: number): string => value.toFixed(1);

/** The speeds that have a ring, kn. */
function ringsIn(reach: number): readonly number[] {
  const step = reach > 12 ? 10 : 5;
  return Array.from({ length: Math.ceil(reach / step) - 1 }, (_, index) => step * (index + 1));
}

function ring(reach: number, speed: number): Markup {
  const radius = (RADIUS * speed) / reach;
  return html`<circle class="ring" r="${at(radius)}"/><text class="ring-name" x="4" y="${at(radius - 4)}">${plain(speed, 0)} kn</text>`;
}

/** Half circles in the colours of the side lights, with the marks of the tacks. */
const SIDES = html`<path class="side port" d="M0 ${-RADIUS}A${RADIUS} ${RADIUS} 0 0 0 0 ${RADIUS}"/>
<path class="side starboard" d="M0 ${-RADIUS}A${RADIUS} ${RADIUS} 0 0 1 0 ${RADIUS}"/>
<path class="mark port" d="M${-RADIUS - 9} 0l12 -8v16z"/><path class="mark starboard" d="M${RADIUS} -9l9 9 -9 9 -9 -9z"/>
<text class="side-name" x="${-RADIUS + 8}" y="26">port</text><text class="side-name" text-anchor="end" x="${RADIUS - 10}" y="26">starboard</text>`;

const QUARTERS = html`<circle class="side" r="${RADIUS}"/>
<text class="quarter" y="${-RADIUS - 7}">N</text><text class="quarter" x="${RADIUS + 11}" y="5">E</text>
<text class="quarter" y="${RADIUS + 18}">S</text><text class="quarter" x="${-RADIUS - 11}" y="5">W</text>`;

const wayOf = ({ from, to }: Arrow, placed: Placed): Way => wayBetween(placed(from), placed(to));

function arrowMarkup(arrow: Arrow, placed: Placed): Markup {
  const { start, end, length, along } = wayOf(arrow, placed);
  if (length < SHORTEST) return NOTHING;
  const head = Math.min(HEAD, 0.6 * length);
  const neck = { x: end.x - head * along.x, y: end.y - head * along.y };
  const corner = (which: number): string =>
    `${at(neck.x - which * 0.45 * head * along.y)} ${at(neck.y + which * 0.45 * head * along.x)}`;
  return html`<g class="arrow ${arrow.kind}"><line x1="${at(start.x)}" y1="${at(start.y)}" x2="${at(neck.x)}" y2="${at(neck.y)}"/>
<path d="M${at(end.x)} ${at(end.y)}L${corner(1)}L${corner(-1)}z"/></g>`;
}

const nameMarkup = ({ x, y, anchor, name }: WrittenName): Markup =>
  html`<text x="${at(x)}" y="${at(y)}" text-anchor="${anchor}">${name}</text>`;

/** From a hull's middle, what it covers. */
const HULL = [-10, 0, 10];

/** Where the sides and the quarters have their names. */
const WORDS = {
  bow: [-RADIUS + 20, RADIUS - 30, RADIUS - 60].map((x) => ({ x, y: 21 })),
  north: [-RADIUS - 11, RADIUS + 11].map((x) => ({ x, y: 0 })),
};

/** From the middle, where the words beside a ring are. */
const RING_WORDS = [10, 22, 34];

/** What names keep clear of: hulls, puffs and other words. */
const drawnPlaces = ({ up, reach, hulls, puffs = [] }: Picture, placed: Placed): readonly Place[] => [
  ...WORDS[up],
  ...ringsIn(reach).flatMap((speed) => RING_WORDS.map((x) => ({ x, y: (RADIUS * speed) / reach - 9 }))),
  ...hulls.flatMap(({ at: point, bow }) => {
    const { x, y } = placed(point);
    const ahead = toward(bow, 1);
    return HULL.map((along) => ({ x: x + along * ahead.right, y: y - along * ahead.up }));
  }),
  ...puffs.map(placed),
];

function hullMarkup({ at: point, bow, isGhost = false }: Hull, placed: Placed): Markup {
  const { x, y } = placed(point);
  const name = isGhost ? "hull ghost" : "hull";
  return html`<path class="${name}" transform="translate(${at(x)} ${at(y)}) rotate(${at(bow)})" d="M0 -17C7 -8 7 4 5 14H-5C-7 4 -7 -8 0 -17z"/>`;
}

function sightMarkup([from, to]: readonly [Point, Point], placed: Placed): Markup {
  const [start, end] = [placed(from), placed(to)];
  return html`<line class="sight" x1="${at(start.x)}" y1="${at(start.y)}" x2="${at(end.x)}" y2="${at(end.y)}"/>`;
}

function puffMarkup(point: Point, placed: Placed): Markup {
  const { x, y } = placed(point);
  return html`<circle class="puff" cx="${at(x)}" cy="${at(y)}" r="9"/><circle class="puff" cx="${at(x)}" cy="${at(y)}" r="3.5"/>`;
}

function handleMarkup(point: Point, placed: Placed): Markup {
  const { x, y } = placed(point);
  return html`<circle class="handle" cx="${at(x)}" cy="${at(y)}" r="20"/>`;
}

/** Where in the picture a pointer is, in knots; nothing where it is not drawn. Never throws. */
export function pointIn(
  drawn: SVGSVGElement,
  pointer: { readonly clientX: number; readonly clientY: number },
  reach: number,
): Point | undefined {
  const toScreen = drawn.getScreenCTM();
  if (!toScreen) return undefined;
  const { x, y } = new DOMPoint(pointer.clientX, pointer.clientY).matrixTransform(toScreen.inverse());
  return { right: (x * reach) / RADIUS, up: (-y * reach) / RADIUS };
}

/** Arrows around a boat, drawn from above in rings of knots. Never throws. */
export function picture(drawn: Picture): Markup {
  const { label, up, reach, arrows, hulls, puffs = [], sights = [], handles = [] } = drawn;
  const placed: Placed = (point) => ({ x: (RADIUS * point.right) / reach, y: (-RADIUS * point.up) / reach });
  const rings = ringsIn(reach).map((speed) => ring(reach, speed));
  const names = arrowNames(
    arrows.map((arrow) => ({
      way: wayOf(arrow, placed),
      name: arrow.label,
    })),
    { drawn: drawnPlaces(drawn, placed), reach: WIDTH / 2 + MARGIN },
  );
  return html`<svg class="picture" viewBox="${-WIDTH / 2} -205 ${WIDTH} 410" role="img" aria-label="${label}">
${rings}${up === "bow" ? SIDES : QUARTERS}
${sights.map((sight) => sightMarkup(sight, placed))}
${arrows.map((arrow) => arrowMarkup(arrow, placed))}
${hulls.map((hull) => hullMarkup(hull, placed))}
${puffs.map((puff) => puffMarkup(puff, placed))}
${names.map(nameMarkup)}
${handles.map((handle) => handleMarkup(handle, placed))}
</svg>`;
}
