import { type Corner, pathOfCorners } from '../../../server/geometry/outline/corners.ts';
import { boxOfPath } from '../../../server/geometry/outline/measure.ts';
import { outlineMeasures } from '../../../server/trade/blank/plane-shapes.ts';

/** The measures of an outline, and its box. */
export const outlined = (corners: readonly Corner[]) => ({
  ...outlineMeasures(corners),
  box: boxOfPath(pathOfCorners(corners).path),
});
