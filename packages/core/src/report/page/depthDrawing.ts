import type { Metres } from "../../units.ts";
import { signed } from "../format.ts";
import { html, type Markup } from "../markup.ts";

/** A hull's section with what depths count from: waterline, transducer, keel. @param offset to the waterline. Never throws. */
export const depthDrawing = (offset: Metres): Markup => html`<figure>
<svg viewBox="0 0 700 190" role="img" aria-label="What depths are counted from: the waterline, the transducer or the keel" style="max-width:44rem;width:100%;height:auto" fill="none" stroke="currentColor" stroke-width="1.5">
<path d="M10 50 H690" stroke-dasharray="6 4"/>
<path d="M60 20 C70 75 110 90 150 92 L158 92 L162 140 L178 140 L182 92 L190 92 C230 90 270 75 280 20 Z"/>
<rect x="222" y="80" width="18" height="10" fill="currentColor"/>
<path d="M10 175 H690" stroke-width="3"/>
<g stroke="none" fill="currentColor" font-size="13">
<text x="300" y="45">waterline: add ${signed(offset, 2)} m (offset positive)</text>
<text x="300" y="92">transducer: as shown, if it counts from it (offset 0)</text>
<text x="300" y="142">keel: less what it reaches deeper (offset negative)</text>
<text x="300" y="170">bottom</text>
</g>
</svg>
<figcaption>An offset is added to the depth shown: a positive one makes it count from the waterline, a negative one from the keel.</figcaption>
</figure>`;
