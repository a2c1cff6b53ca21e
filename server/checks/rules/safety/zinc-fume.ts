import type { Check } from '../../check.ts';
import { reportCaution } from '../../support/cautions.ts';

export const check: Check = {
  code: 'zinc-fume',
  title: 'Heat on zinc',
  family: 'Safety',
  severity: 'warning',
  caution: 'zinc fume',
  what: 'Galvanised or zinc-plated stock, wire or fasteners in any hot step: an error. Brass that is annealed (information) or welded (warning).',
  why: 'The fume gives metal fume fever, hours later, when nobody thinks of the torch any more.',
  todo: 'Strip the zinc first, or take bare metal. Brass: low heat, good extraction.',
  source: 'OSHA limit and NIOSH REL 5 mg/m³, NIOSH STEL 10 mg/m³ for zinc oxide; boiling point of zinc from memory',
  example: `material plate
  galvanised steel 1.5 mm
piece outer
  from plate
  plate 120 x 40 mm
piece inner
  from plate
  plate 120 x 40 mm
seam join
  joins outer, inner
  along outer.top
  weld
`,
  better: `material plate
  mild steel 1.5 mm
piece outer
  from plate
  plate 120 x 40 mm
piece inner
  from plate
  plate 120 x 40 mm
seam join
  joins outer, inner
  along outer.top
  weld
`,
  run: (model, report) => reportCaution(model, 'zinc-fume', report),
};
