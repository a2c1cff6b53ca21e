import { say } from '../../../l10n/say.ts';
import {
  allowanceBeyondFinished,
  hemAllowance,
  rolledAllowance,
  standsBeyond,
  wiredAllowance,
} from '../../trade/edge/edge.ts';
import { fromSpec } from '../../trade/reckoning/readings.ts';
import { plain, type Result } from '../../trade/reckoning/result.ts';
import type { LineReading } from '../names/line-reading.ts';
import type { MaterialModel } from './material.ts';

/** How an edge is worked, as its line says. */
export interface EdgeWork {
  readonly line: LineReading;
  readonly edge: string;
  readonly kind: 'rolled' | 'hemmed' | 'rounded' | 'long' | 'soft';
  readonly wire?: MaterialModel;
  /** Inside diameter of the roll: the wire's, or the hollow's, mm. */
  readonly hollow?: number;
  readonly hem?: { readonly width: number; readonly double: boolean };
  readonly outward: boolean;
  /** The part of the edge that is worked, along it, mm. */
  readonly stretch?: { readonly from: number; readonly to: number };
}

/** What is done to an edge, for a list of allowances: `rolled over edge-wire`. */
export function inWords(work: EdgeWork): string {
  switch (work.kind) {
    case 'rolled':
      return work.wire ? say`rolled over ${work.wire.name}` : 'rolled hollow';
    case 'hemmed':
      return work.hem?.double ? 'double hem' : 'hem';
    case 'rounded':
      return 'rounded';
    case 'long':
      return 'left long';
    case 'soft':
      return 'soft edge';
  }
}

/** Metal to leave beyond the finished edge, mm; nothing for an edge that needs none or is not finished being written. */
export function allowanceOf(work: EdgeWork, thickness: number): Result | undefined {
  switch (work.kind) {
    case 'rolled': {
      if (work.hollow === undefined) return undefined;
      const beyond = allowanceBeyondFinished({ hollow: work.hollow, thickness });
      const whole = work.wire
        ? wiredAllowance({ wire: work.hollow, thickness })
        : rolledAllowance({ hollow: work.hollow, thickness });
      const stands = standsBeyond({ hollow: work.hollow, thickness });
      return {
        ...beyond,
        ...(whole.outside === undefined ? {} : { outside: whole.outside }),
        note: say`Beyond the finished edge. From the line where the roll begins it is ${plain(whole.value)} mm, and the roll stands ${plain(stands.value)} mm beyond that line.${whole.note && work.wire ? say` ${whole.note}` : ''}`,
      };
    }
    case 'hemmed':
      return (
        work.hem && hemAllowance({ width: work.hem.width, thickness, kind: work.hem.double ? 'double' : 'single' })
      );
    case 'long': {
      const long = work.line.length('long');
      return long !== undefined && long > 0
        ? fromSpec(long, 'mm', 'a', 'Left long, to be trimmed after fitting')
        : undefined;
    }
    case 'rounded':
    case 'soft':
      return undefined;
  }
}

/** From the cut edge to the line where the metal begins to turn, mm; nothing for an edge that is not turned. */
export function foldOf(work: EdgeWork, thickness: number): number | undefined {
  switch (work.kind) {
    case 'rolled':
      if (work.hollow === undefined) return undefined;
      return rolledAllowance({ hollow: work.hollow, thickness }).value;
    case 'hemmed':
      return allowanceOf(work, thickness)?.value;
    default:
      return undefined;
  }
}
