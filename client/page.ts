/** The fixed frame of the picture page. Nothing from a part file is ever written into it; drawings arrive later as messages. */

export interface PageAddresses {
  /** Random, fresh for each page. */
  readonly nonce: string;
  /** Where the page's own files come from, as the policy names it. */
  readonly source: string;
  readonly script: string;
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

/** The whole page. Its policy lets in the page's own script by nonce and its own style sheet, and nothing else whatever. */
export const picturePage = ({ nonce, source, script, style }: PageAddresses): string => `<!DOCTYPE html>
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
<label class="chooser"><span>Part</span> <select id="part"></select></label>
<fieldset id="layers"><legend>Layers</legend>${LAYER_BOXES.map(layerBox).join('')}</fieldset>
<div class="zoom">
<button type="button" id="closer" title="Closer (+)" aria-label="Zoom in">+</button>
<button type="button" id="farther" title="Farther (−)" aria-label="Zoom out">−</button>
<button type="button" id="fit" title="The whole part (0)">Fit</button>
</div>
</header>
<p id="banner" role="status" hidden></p>
<main id="sheet" tabindex="0" role="group" aria-label="Picture of the blank. Arrow keys move it, plus and minus zoom, 0 shows the whole part, Tab goes from feature to feature, Enter goes to its text.">
<div id="drawing"></div>
<p id="empty">Waiting for the first picture…</p>
</main>
<footer id="title" aria-live="off"></footer>
<script nonce="${nonce}" src="${script}"></script>
</body>
</html>
`;
