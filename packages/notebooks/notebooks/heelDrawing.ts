import { html, type Markup, plain } from "@bothtacks/core/page";

/** Lengths of the drawing: the mast, and the arrow of the wind from the side. */
const MAST = 250;
const SIDE = 110;

const at = (value: number): string => value.toFixed(1);

/**
 * A boat seen from astern, heeled to leeward on starboard tack: the wind from the side is level, and the vane's plane, which
 * is square to the mast, sees it foreshortened. Never throws.
 *
 * @param heel °, away from the wind
 * @param aside wind from the side, kn
 */
export function heelDrawing(heel: number, aside: number): Markup {
  const angle = (heel * Math.PI) / 180;
  // starboard is right, seen from astern; on starboard tack she heels to the left
  const top = { x: -MAST * Math.sin(angle), y: -MAST * Math.cos(angle) };
  const seen = SIDE * Math.cos(angle);
  const inPlane = { x: top.x + seen * Math.cos(angle), y: top.y - seen * Math.sin(angle) };
  // nearly upright the two arrows are one, and their words stand one above the other
  const seenWords = Math.min(inPlane.y - 9, top.y - 14);
  const label = `Seen from astern, heeled ${plain(heel, 0)}° to port: of ${plain(aside, 1)} knots from the side the masthead sees ${plain(aside * Math.cos(angle), 1)}.`;
  return html`<svg class="picture" viewBox="-215 -300 430 370" role="img" aria-label="${label}">
<line class="ring" x1="-205" y1="0" x2="205" y2="0"/>
<g transform="rotate(${at(-heel)})"><path class="hull" d="M-52 -16H52C46 14 22 26 5 27L4 58H-4L-5 27C-22 26 -46 14 -52 -16z"/><path class="hull" d="M-2.5 -16V${-MAST}h5V-16z"/></g>
<line class="sight" x1="${at(top.x + SIDE)}" y1="${at(top.y)}" x2="${at(inPlane.x)}" y2="${at(inPlane.y)}"/>
<g class="arrow trueWind"><line x1="${at(top.x + SIDE)}" y1="${at(top.y)}" x2="${at(top.x + 13)}" y2="${at(top.y)}"/><path d="M${at(top.x)} ${at(top.y)}l13 -6v12z"/>
<text x="${at(top.x + SIDE + 8)}" y="${at(top.y + 5)}">level ${plain(aside, 1)} kn</text></g>
<g class="arrow feltWind"><line x1="${at(inPlane.x)}" y1="${at(inPlane.y)}" x2="${at(top.x)}" y2="${at(top.y)}"/>
<text x="${at(inPlane.x)}" y="${at(seenWords)}">seen ${plain(aside * Math.cos(angle), 1)} kn</text></g>
<text class="side-name" x="-205" y="-8">port</text><text class="side-name" text-anchor="end" x="205" y="-8">starboard</text>
</svg>`;
}
