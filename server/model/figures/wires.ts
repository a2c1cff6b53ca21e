import { gathered } from '../per-spec.ts';
import type { Model } from '../spec.ts';
import type { MaterialModel } from '../things/material.ts';
import type { Figure } from '../values/figure.ts';

/** Every use of wire: wired edges, and the pins of hinges. */
export const wires = (model: Model): readonly WireUse[] => [...wiredEdges(model), ...pins(model)];

const wiredEdges = gathered('piece', (piece) =>
  piece.edgeWorks().flatMap((work): WireUse[] => {
    const { edge, wire } = work;
    const length = wire && piece.figure(`${edge}.wire`);
    const times = piece.make() * piece.edgesOf(work).length;
    return wire && length ? [{ of: piece.name, what: edge, length, wire, times }] : [];
  }),
);

const pins = gathered('hinge', (hinge): WireUse[] => {
  const length = hinge.figures().get('pin-length');
  const wire = hinge.pin();
  return wire && length ? [{ of: hinge.name, what: 'pin', length, wire, times: hinge.make() }] : [];
});

/** A wire cut to length, so many times in one build. */
export interface WireUse {
  /** The piece or the hinge it is for. */
  readonly of: string;
  /** The edge it lies in, or `pin`. */
  readonly what: string;
  readonly length: Figure;
  readonly wire: MaterialModel;
  readonly times: number;
}
