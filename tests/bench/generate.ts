/** Part files of any size for the timings: every part differs from every other in its sizes, so that nothing is answered from a memo. */

const shop = `units inch

material mild_steel {
  gauge table steel
  density 7850 kg/m3
  yield 210 MPa
  tensile 330 MPa
  modulus 205 GPa
}
sheet crs_18 { material mild_steel  thickness 18 ga  size 48 by 96  bend radius 1/16 k 0.42 }
brake bench_leaf { leaf  length 48  capacity 16 ga of mild_steel  least flange 3/8 }
`;

const part = (index: number): string => {
  const width = 10 + (index % 97) / 8;
  const height = 6 + (index % 61) / 16;
  return `
/// Tray ${index} for the produce box.
panel tray_${index} {
  sheet crs_18
  outline rectangle ${width} by ${height} outside
  grain along x
  edge top { flange 3/4 down; flange ${(0.5 + (index % 7) / 32).toFixed(5)} down }
  edge left, right { flange 5/8 down }
  edge bottom { flange 1 down 90 radius 3/32 }
  corner all relief round 1/8
  hole 9/32 at (1, 1 1/2), (${width} - 1, 1 1/2)
  slot 1/4 by 1 at (${width} / 2, ${height} - 1 1/2) turned 0
}
`;
};

export const partsFile = (parts: number): string => shop + Array.from({ length: parts }, (_, index) => part(index)).join('');

export const partsFileOfBytes = (bytes: number): string => partsFile(Math.ceil((bytes - shop.length) / part(100).length));

/** JSON of about the same size and as many values to look at, with a schema to be held against. */
export const jsonOfBytes = (bytes: number): string => {
  const item = (index: number): unknown => ({
    name: `tray_${index}`,
    sheet: 'crs_18',
    outline: { width: 10 + (index % 97) / 8, height: 6 + (index % 61) / 16, convention: 'outside' },
    edges: [
      {
        edge: 'top',
        flanges: [
          { length: 0.75, direction: 'down' },
          { length: 0.5 + (index % 7) / 32, direction: 'down' },
        ],
      },
      { edge: 'left', flanges: [{ length: 0.625, direction: 'down' }] },
      { edge: 'bottom', flanges: [{ length: 1, direction: 'down', turn: 90, radius: 0.09375 }] },
    ],
    holes: [
      { diameter: 0.28125, at: [1, 1.5] },
      { diameter: 0.28125, at: [9, 1.5] },
    ],
  });
  const one = JSON.stringify(item(100), null, 2).length + 4;
  return JSON.stringify({ parts: Array.from({ length: Math.ceil(bytes / one) }, (_, index) => item(index)) }, null, 2);
};

export const jsonSchema = {
  type: 'object',
  properties: {
    parts: {
      type: 'array',
      items: {
        type: 'object',
        required: ['name', 'sheet', 'outline'],
        properties: {
          name: { type: 'string', pattern: '^[a-z_0-9]+$' },
          sheet: { type: 'string' },
          outline: {
            type: 'object',
            required: ['width', 'height'],
            properties: {
              width: { type: 'number', exclusiveMinimum: 0 },
              height: { type: 'number', exclusiveMinimum: 0 },
              convention: { enum: ['outside', 'inside', 'flat'] },
            },
          },
          edges: {
            type: 'array',
            items: {
              type: 'object',
              properties: {
                edge: { enum: ['top', 'bottom', 'left', 'right'] },
                flanges: {
                  type: 'array',
                  items: {
                    type: 'object',
                    properties: {
                      length: { type: 'number' },
                      direction: { enum: ['up', 'down'] },
                      turn: { type: 'number' },
                      radius: { type: 'number' },
                    },
                  },
                },
              },
            },
          },
          holes: {
            type: 'array',
            items: {
              type: 'object',
              properties: { diameter: { type: 'number' }, at: { type: 'array', minItems: 2, maxItems: 2, items: { type: 'number' } } },
            },
          },
        },
      },
    },
  },
} as const;
