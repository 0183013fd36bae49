/** Open problems of laying shapes, as published: lengths in the set's own unit, taken as millimetres. */

/**
 * Rectangles of a sheet 20 wide that exactly fill 20 of its length, unturned: width across the strip and length along it.
 * Source: E. Hopper, B. C. H. Turton, "An empirical investigation of meta-heuristic and heuristic algorithms for a 2D packing problem", EJOR 128
 * (2001) 34-57, category C1, problems 1 to 3. Problems 2 and 3 are as remembered; each adds up to 400, and the program finds how they fill the square.
 */
export const hopperTurtonC1 = {
  width: 20,
  length: 20,
  problems: [
    [
      [2, 12],
      [7, 12],
      [8, 6],
      [3, 6],
      [3, 5],
      [5, 5],
      [3, 12],
      [3, 7],
      [5, 7],
      [2, 6],
      [3, 2],
      [4, 2],
      [3, 4],
      [4, 4],
      [9, 2],
      [11, 2],
    ],
    [
      [4, 1],
      [4, 5],
      [9, 4],
      [3, 5],
      [3, 9],
      [1, 4],
      [5, 3],
      [4, 1],
      [5, 5],
      [7, 2],
      [9, 3],
      [3, 13],
      [2, 8],
      [15, 4],
      [5, 4],
      [10, 6],
      [7, 2],
    ],
    [
      [4, 14],
      [5, 2],
      [2, 2],
      [9, 7],
      [5, 5],
      [2, 5],
      [7, 7],
      [3, 5],
      [6, 5],
      [3, 2],
      [6, 2],
      [4, 6],
      [6, 3],
      [10, 3],
      [6, 3],
      [10, 3],
    ],
  ],
} as const;

/**
 * 43 pieces of four shapes on a strip 40 wide, unturned. Source of the data: the EURO special interest group on cutting and packing, set shapes0.
 * Best known use of the strip 68.79 % (length 58.00): A. Elkeran, EJOR 231 (2013) 757-769, as remembered, not looked up again.
 */
export const shapes0 = {
  width: 40,
  bestKnown: 0.6879,
  pieces: [
    {
      quantity: 15,
      corners: [
        [0, 0],
        [2, 0],
        [2, 3],
        [12, 3],
        [12, 0],
        [14, 0],
        [14, 5],
        [0, 5],
      ],
    },
    {
      quantity: 7,
      corners: [
        [0, 0],
        [6, -6],
        [12, 0],
        [6, 6],
      ],
    },
    {
      quantity: 9,
      corners: [
        [0, 0],
        [6, 0],
        [6, -2],
        [7, -2],
        [11, 2],
        [11, 4],
        [8, 4],
        [8, 1],
        [2, 1],
        [2, 4],
        [0, 4],
      ],
    },
    {
      quantity: 12,
      corners: [
        [0, 0],
        [2, 0],
        [2, -2],
        [4, -2],
        [4, 0],
        [6, 0],
        [6, 2],
        [4, 2],
        [4, 4],
        [2, 4],
        [2, 2],
        [0, 2],
      ],
    },
  ],
} as const;
