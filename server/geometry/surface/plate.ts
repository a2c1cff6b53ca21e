import type { Chart } from './chart.ts';

/** A flat rectangle, wide by high, mm: upright, its face to the front. */
export function plateChart(wide: number, high: number): Chart {
  return {
    point: (u, v) => [wide * (0.5 - u), 0, high * v],
    normal: () => [0, 1, 0],
    closed: false,
    poles: { bottom: false, top: false },
    columns: [0, 0.5, 1],
    edges: new Map([
      [
        'bottom',
        [
          [0, 0],
          [1, 0],
        ],
      ],
      [
        'right',
        [
          [1, 0],
          [1, 1],
        ],
      ],
      [
        'top',
        [
          [0, 1],
          [1, 1],
        ],
      ],
      [
        'left',
        [
          [0, 0],
          [0, 1],
        ],
      ],
    ]),
    lines: new Map([
      [
        'middle',
        [
          [0.5, 0],
          [0.5, 1],
        ],
      ],
    ]),
    sheet: (u, v) => [wide * (u - 0.5), high * v],
    spot: (x, y) => [x / wide + 0.5, y / high],
  };
}
