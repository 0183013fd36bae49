/** The fixed frame of the picture page. Nothing from a part file is ever written into it; drawings arrive later as messages. */

export interface PageAddresses {
  /** Random, fresh for each page. */
  readonly nonce: string;
  /** Where the page's own files come from, as the policy names it. */
  readonly source: string;
  readonly script: string;
  /** The second script, for the view in space; fetched when that view is first wanted. */
  readonly foldedScript: string;
  readonly style: string;
}

/** Layers a reader may hide. Beside each stands a little sample of its line, drawn by the style sheet, so that the strip is the legend too. */
const LAYER_BOXES = [
  { name: 'cut', label: 'Cut', about: 'cut lines' },
  { name: 'bends', label: 'Bends', about: 'bend lines (whole line: up; dashes: down)' },
  { name: 'beads', label: 'Beads', about: 'beads, the roller and edges to trim' },
  { name: 'holes', label: 'Holes', about: 'holes and slots' },
  { name: 'dimensions', label: 'Dimensions', about: 'dimensions' },
  { name: 'marks', label: 'Marks', about: 'centre marks and where the brake holds' },
  { name: 'labels', label: 'Labels', about: 'words beside bends and holes' },
] as const;

const layerBox = ({ name, label, about }: (typeof LAYER_BOXES)[number]): string =>
  `<label title="Show or hide: ${about}"><input type="checkbox" data-layer="${name}" checked>` +
  `<span class="sample ${name}_sample" aria-hidden="true">${name === 'labels' ? 'R1' : ''}</span><span>${label}</span></label>`;

/** Looks from a standard side. Words as on a drawing in first-angle or third-angle projection alike. */
const SIDES = [
  { name: 'iso', label: 'Corner', about: 'from a corner, all three sizes in sight (5)' },
  { name: 'front', label: 'Front', about: 'from the front (1)' },
  { name: 'right', label: 'Right', about: 'from the right (2)' },
  { name: 'top', label: 'Top', about: 'from above, as the flat picture lies (3)' },
] as const;

const sideButton = ({ name, label, about }: (typeof SIDES)[number]): string =>
  `<button type="button" data-side="${name}" title="Look ${about}">${label}</button>`;

/** The whole page. Its policy lets in the page's own script by nonce and its own style sheet, and nothing else whatever. */
export const picturePage = ({ nonce, source, script, foldedScript, style }: PageAddresses): string => `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src ${source}; script-src 'nonce-${nonce}'; base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="stylesheet" href="${style}">
<title>Planish picture</title>
</head>
<body>
<header class="strip" role="toolbar" aria-label="Picture">
<label class="chooser" hidden><span>Part</span> <select id="part"></select></label>
<div class="tabs" role="tablist" aria-label="View">
<button type="button" role="tab" id="tab_flat" data-view="flat" aria-controls="sheet" aria-selected="true" title="The flat blank">Flat</button>
<button type="button" role="tab" id="tab_folded" data-view="folded" aria-controls="space" aria-selected="false" tabindex="-1" title="The part folded up, in space">Folded</button>
<button type="button" role="tab" id="tab_bending" data-view="bending" aria-controls="bending" aria-selected="false" tabindex="-1" title="How it is bent on the brake, step by step">Bending</button>
</div>
<fieldset id="layers"><legend>Layers</legend>${LAYER_BOXES.map(layerBox).join('')}</fieldset>
<div id="sides" role="group" aria-label="Look from" hidden>${SIDES.map(sideButton).join('')}</div>
<div class="zoom">
<button type="button" id="closer" title="Closer (+)" aria-label="Zoom in">+</button>
<button type="button" id="farther" title="Farther (−)" aria-label="Zoom out">−</button>
<button type="button" id="fit" title="The whole part (0)">Fit</button>
</div>
</header>
<p id="banner" role="status" hidden></p>
<main id="sheet" class="frame" tabindex="0" role="group" aria-label="Picture of the blank. Arrow keys move it, plus and minus zoom, 0 shows the whole part, Tab goes from feature to feature, Enter goes to its text.">
<div id="drawing"></div>
<p id="empty">Waiting for the first picture…</p>
</main>
<section id="space" class="frame" tabindex="0" role="group" aria-label="The folded part. Arrow keys turn it, with Shift they move it, plus and minus zoom, 0 shows it whole, 1, 2, 3 and 5 look from the front, the right, above and a corner. Comma and full stop fold a bend less or more, N and P go from feature to feature, Enter goes to its text." hidden>
<canvas id="scene" aria-hidden="true"></canvas>
<div id="sizes" aria-hidden="true"></div>
<p id="pointed" aria-live="polite"></p>
<ul id="key" aria-label="Colours"><li><span class="swatch face_swatch"></span>face</li><li><span class="swatch back_swatch"></span>back</li><li><span class="swatch up_swatch"></span>bend up</li><li><span class="swatch down_swatch"></span>bend down</li><li class="clash_key" hidden><span class="swatch error_swatch"></span>runs into something</li><li class="error_key" hidden><span class="swatch error_swatch"></span>has an error</li><li class="warning_key" hidden><span class="swatch warning_swatch"></span>has a warning</li></ul>
<p id="no_space" hidden></p>
</section>
<section id="bending" aria-labelledby="bend_lead" hidden>
<p id="bend_lead"></p>
<ol id="bend_steps" role="listbox" tabindex="0" aria-label="Steps of the bending. Arrow keys choose one, space plays it, Enter goes to its text."></ol>
<div id="bend_side" class="frame" tabindex="0" role="group" aria-label="The step seen from the end of the brake. Arrow keys choose the step before or after, space plays it, plus and minus zoom, 0 shows it whole, comma and full stop move the leaf, Enter goes to its text."></div>
<div id="bend_words"></div>
</section>
<div id="bend_bar" role="group" aria-label="Bending" hidden>
<button type="button" id="bend_before" aria-label="Step before" title="Step before (←)"></button>
<button type="button" id="bend_play" aria-label="Play this step" title="Play this step (space)"></button>
<button type="button" id="bend_after" aria-label="Step after" title="Step after (→)"></button>
<input type="range" id="bend_turned" min="0" max="1" step="any" value="1" aria-label="How far the leaf has gone">
<output id="bend_at" for="bend_turned"></output>
</div>
<div id="folding" role="group" aria-label="Folding" hidden>
<button type="button" id="play" aria-label="Fold step by step" title="Fold step by step (space)"></button>
<input type="range" id="turned" min="0" max="1" step="any" value="1" aria-label="How far it is folded" list="stops">
<datalist id="stops"></datalist>
<output id="step" for="turned"></output>
</div>
<footer id="title" aria-live="off"></footer>
<script nonce="${nonce}" src="${script}" data-folded="${foldedScript}"></script>
</body>
</html>
`;
