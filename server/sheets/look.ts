/**
 * The picture's style sheet for a page that shows it: classes only, every colour a custom property with a fallback, so that a host can
 * hand in its theme's own. The sheet is a warm pale metal, bends toward the eye ochre, bends away from it blue, cuts dark.
 */

/**
 * @param scale how wide one drawn pixel is in the picture's own millimetres; 1 where the viewer keeps strokes at screen width
 */
export const pictureStyle = (scale = 1): string => {
  const px = (width: number): string => `${Number((width * scale).toFixed(4))}px`;
  const dash = (...parts: readonly number[]): string => parts.map((part) => Number((part * scale).toFixed(4))).join(' ');
  return `.planish_picture { font-family: var(--planish-font, "DejaVu Sans", "Liberation Sans", sans-serif); }
.planish_picture .area { stroke: none; }
.planish_picture .base { fill: var(--planish-base, #eceae4); }
.planish_picture .flange { fill: var(--planish-flange, #dedbd2); }
.planish_picture .zone_up { fill: var(--planish-zone-up, #f0d9ad); }
.planish_picture .zone_down { fill: var(--planish-zone-down, #bcd3e6); }
.planish_picture .cut, .planish_picture .cut_inside { fill: none; stroke: var(--planish-cut, #23282d); stroke-width: ${px(1.8)}; stroke-linejoin: round; }
.planish_picture .cut_inside { fill: var(--planish-paper, #ffffff); }
.planish_picture .bend_up { fill: none; stroke: var(--planish-up, #a8650a); stroke-width: ${px(1.3)}; }
.planish_picture .bend_down { fill: none; stroke: var(--planish-down, #1f669c); stroke-width: ${px(1.3)}; stroke-dasharray: ${dash(8, 4)}; }
.planish_picture .brake_line { fill: none; stroke: var(--planish-brake, #8a8f94); stroke-width: ${px(0.8)}; stroke-dasharray: ${dash(2, 3)}; }
.planish_picture .mark { fill: none; stroke: var(--planish-mark, #8a8f94); stroke-width: ${px(0.7)}; }
.planish_picture .relief { fill: none; stroke: none; pointer-events: all; }
.planish_picture .hit { fill: none; stroke: transparent; stroke-width: ${px(11)}; pointer-events: stroke; }
.planish_picture path.dimension, .planish_picture .datum { fill: none; stroke: var(--planish-dimension, #6d747a); stroke-width: ${px(0.8)}; }
.planish_picture .arrow { fill: var(--planish-dimension, #6d747a); stroke: none; }
.planish_picture .text { fill: var(--planish-text, #343a40); stroke: none; }
.planish_picture .bend .text.label { fill: var(--planish-label, #343a40); }
.planish_picture .has_error .cut_inside, .planish_picture .has_error .cut, .planish_picture .has_error .bend_up, .planish_picture .has_error .bend_down { stroke: var(--planish-error, #c0281c); }
.planish_picture .has_error .zone_up, .planish_picture .has_error .zone_down, .planish_picture .has_error .flange, .planish_picture .has_error .base { fill: var(--planish-error-fill, #f3c8c2); }
.planish_picture .has_warning .cut_inside, .planish_picture .has_warning .bend_up, .planish_picture .has_warning .bend_down { stroke: var(--planish-warning, #b07d00); }
.planish_picture.stale { opacity: 0.45; }
`;
};
