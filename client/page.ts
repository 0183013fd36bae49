/** The fixed frame of the picture page. Nothing from a part file is ever written into it; drawings arrive later as messages. */

export interface PageAddresses {
  /** Random, fresh for each page. */
  readonly nonce: string;
  /** Where the page's own files come from, as the policy names it. */
  readonly source: string;
  readonly script: string;
  readonly style: string;
}

interface LayerBox {
  readonly name: string;
  readonly label: string;
  /** Lines that show how the layer is drawn: class and height in the little sample. */
  readonly sample: readonly (readonly [kind: string, y: number])[];
}

const LAYER_BOXES: readonly LayerBox[] = [
  { name: 'cut', label: 'Cut', sample: [['cut', 5]] },
  {
    name: 'bends',
    label: 'Bends',
    sample: [
      ['bend_up', 3],
      ['bend_down', 8],
    ],
  },
  { name: 'holes', label: 'Holes', sample: [] },
  { name: 'dimensions', label: 'Dimensions', sample: [['dimension', 5]] },
  { name: 'marks', label: 'Marks', sample: [['mark', 5]] },
  { name: 'labels', label: 'Labels', sample: [] },
];

const sampleOf = (box: LayerBox): string => {
  const lines = box.sample.map(([kind, y]) => `<line class="${kind}" x1="0" y1="${y}" x2="26" y2="${y}"/>`).join('');
  const shape =
    box.name === 'holes'
      ? '<circle class="cut_inside" cx="13" cy="5.5" r="4"/>'
      : box.name === 'labels'
        ? '<text x="7" y="9">R1</text>'
        : lines;
  return `<svg class="sample" viewBox="0 0 26 11" aria-hidden="true">${shape}</svg>`;
};

const layerBox = (box: LayerBox): string =>
  `<label title="Show or hide: ${box.label.toLowerCase()}${box.name === 'bends' ? ' (whole line: up; dashes: down)' : ''}">` +
  `<input type="checkbox" data-layer="${box.name}" checked>${sampleOf(box)}<span>${box.label}</span></label>`;

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
