/** The scene's colours, taken from the editor's theme as the style sheet names them. */
import { Color } from 'three';

export interface Colours {
  readonly ink: Color;
  readonly tangent: Color;
  readonly lit: Color;
  readonly face: Color;
  readonly back: Color;
  readonly rim: Color;
  readonly up: Color;
  readonly down: Color;
  readonly error: Color;
  readonly warning: Color;
  /** Lines carry the drawing where tints may not. */
  readonly highContrast: boolean;
}

/** What a custom property of the style sheet comes to on this page, whatever form the theme wrote it in. */
const reading = (name: string): Color => {
  const probe = document.createElement('span');
  probe.style.color = `var(${name})`;
  document.body.append(probe);
  const words = getComputedStyle(probe).color;
  probe.remove();
  const [red = 0, green = 0, blue = 0] = (words.match(/[\d.]+/g) ?? []).map(Number);
  const scale = words.startsWith('color(') ? 1 : 255;
  return new Color().setRGB(red / scale, green / scale, blue / scale, 'srgb');
};

/** So much of `b` in `a`, mixed as the eye sees it. */
export const mixed = (a: Color, b: Color, share: number): Color => {
  const [p, q] = [a.clone().convertLinearToSRGB(), b.clone().convertLinearToSRGB()];
  return p.lerp(q, share).convertSRGBToLinear();
};

export const readColours = (): Colours => {
  const [paper, ink] = [reading('--paper'), reading('--ink')];
  const highContrast = document.body.classList.contains('vscode-high-contrast') || matchMedia('(forced-colors: active)').matches;
  const light = paper.getHSL({ h: 0, s: 0, l: 0 }).l > 0.5;
  const black = new Color(0x000000);
  // Sheet stands out from the paper in either kind of theme: a light grey on white, a middle grey on black. In high contrast its edges do, in full ink.
  const [faceShare, backShare] = highContrast ? (light ? [0.06, 0.22] : [0.3, 0.14]) : light ? [0.13, 0.4] : [0.62, 0.34];
  const face = mixed(paper, ink, faceShare);
  const back = mixed(paper, ink, backShare);
  return {
    ink: light || highContrast ? ink : mixed(paper, black, 0.65),
    tangent: highContrast ? ink : light ? mixed(ink, paper, 0.25) : mixed(paper, black, 0.3),
    lit: reading('--lit'),
    face,
    back,
    rim: mixed(face, light ? ink : paper, light ? 0.25 : 0.3),
    up: reading('--up'),
    down: reading('--down'),
    error: reading('--error'),
    warning: reading('--warning'),
    highContrast,
  };
};
