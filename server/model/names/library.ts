import { softMaterials } from '../../trade/leather/leather.ts';
import { type GaugeTableId, gaugeTableFor, gaugeTables, gaugeThickness } from '../../trade/metal/gauges.ts';
import { type MetalId, metal } from '../../trade/metal/metals.ts';
import { lengthLadders } from '../../trade/rivet/rivet.ts';
import { inchFraction, trim } from '../values/show.ts';

/*
 * The materials that come with Planish: `use "planish:metals"` and the like. They are specs like any other, written out
 * from the tables of the trade, so that a figure never stands in two places; and a name given in the spec itself goes
 * before the one from here.
 */

export const LIBRARY_SCHEME = 'planish:';

export interface LibraryEntry {
  readonly name: string;
  readonly doc: string;
}

const TEXTS: Readonly<Record<string, { readonly doc: string; readonly write: () => string }>> = {
  metals: {
    doc: 'Sheet and wire: every metal in the gauges and the metric thicknesses it is usually sold in.',
    write: metals,
  },
  rivets: {
    doc: 'Solid rivets: metric by DIN 660 and 661, inch by ASME B18.1.1, in the lengths that are usually sold.',
    write: rivets,
  },
  leather: { doc: 'Leather by the ounce, skins, felt and foam.', write: leather },
  shop: { doc: 'A plain shop to start from: US gauges, a torch, a 32 tpi blade.', write: shop },
};

/** What there is to use. */
export const library: readonly LibraryEntry[] = Object.entries(TEXTS).map(([name, { doc }]) => ({ name, doc }));

export const isLibrary = (uri: string): boolean => uri.startsWith(LIBRARY_SCHEME);

const written = new Map<string, string>();

/** The text of a library file; nothing where there is none of that name. */
export function libraryText(uri: string): string | undefined {
  const name = uri.slice(LIBRARY_SCHEME.length);
  if (!isLibrary(uri) || !Object.hasOwn(TEXTS, name)) return undefined;
  let text = written.get(name);
  if (text === undefined) {
    text = `planish 1\n\n# ${TEXTS[name]!.doc} Comes with Planish; a name of your own goes before one from here.\n${TEXTS[name]!.write()}`;
    written.set(name, text);
  }
  return text;
}

// ---- metals --------------------------------------------------------------------------------------------------------

/** Thicknesses that sheet is usually sold in, mm, and gauge numbers likewise: common practice (no source). */
const METRIC_SHEET = [0.5, 0.6, 0.7, 0.8, 0.9, 1.0, 1.2, 1.25, 1.5, 1.6, 1.75, 2.0, 2.5, 3.0] as const;
const SHEET_GAUGES = [10, 11, 12, 14, 16, 18, 20, 22, 24] as const;
const METRIC_WIRE = [1, 1.5, 2, 2.5, 3, 4, 5] as const;
const INCH_WIRE = [1 / 16, 3 / 32, 1 / 8, 3 / 16] as const;

/** Which metals, under which name, in which states. */
const STOCKED: readonly {
  readonly id: MetalId;
  readonly name: string;
  readonly grade?: string;
  readonly temper?: 'soft' | 'half hard';
}[] = [
  { id: 'mild steel', name: 'mild-steel' },
  { id: 'galvanised steel', name: 'galvanised-steel' },
  { id: 'stainless steel', name: 'stainless-304', grade: '304' },
  { id: 'stainless steel', name: 'stainless-430', grade: '430' },
  { id: 'spring steel', name: 'spring-1050', grade: '1050' },
  { id: 'spring steel', name: 'spring-1075', grade: '1075' },
  { id: 'alloy steel', name: 'alloy-4130', grade: '4130' },
  { id: 'brass', name: 'brass-soft', temper: 'soft' },
  { id: 'brass', name: 'brass-half-hard', temper: 'half hard' },
  { id: 'bronze', name: 'bronze', grade: 'C220' },
  { id: 'copper', name: 'copper-soft', temper: 'soft' },
  { id: 'aluminium', name: 'aluminium-5052', grade: '5052' },
  { id: 'titanium', name: 'titanium-2', grade: 'grade 2' },
];

function metals(): string {
  const sections: string[] = [];
  for (const { id, name, grade, temper } of STOCKED) {
    const qualifiers = `${grade ? `, grade "${grade}"` : ''}${temper ? `, ${temper}` : ''}`;
    const { title } = metal(id, { ...(grade ? { grade } : {}), ...(temper ? { temper } : {}) });
    const table = gaugeTableFor(id, 'US', 'sheet');
    for (const number of SHEET_GAUGES) {
      if (!table || !gaugeThickness(table, number)) continue;
      sections.push(
        section(
          `material ${name}-${number}ga`,
          [`${id} ${number} ga${qualifiers}`, 'sheet 48 x 96 in'],
          `${title}; ${gaugeTables[table].title}.`,
        ),
      );
    }
    // The numbers of the UK wire gauge are written out as lengths: a gauge alone is read by the shop's own tables.
    if (id === 'mild steel' || id === 'brass' || id === 'copper') {
      for (const number of SHEET_GAUGES) {
        const thickness = inches('SWG', number);
        if (thickness)
          sections.push(
            section(
              `material ${name}-${number}swg`,
              [`${id} ${thickness}${qualifiers}`, 'sheet 1000 x 2000 mm'],
              `${title}; ${gaugeTables.SWG.title}.`,
            ),
          );
      }
    }
    for (const thickness of METRIC_SHEET) {
      sections.push(
        section(
          `material ${name}-${dashed(thickness)}mm`,
          [`${id} ${thickness} mm${qualifiers}`, 'sheet 1000 x 2000 mm'],
          title,
        ),
      );
    }
  }
  for (const { id, name } of STOCKED.filter(
    (each) => each.name === 'mild-steel' || each.name === 'brass-soft' || each.name === 'copper-soft',
  )) {
    const wire = name.replace('-soft', '');
    for (const size of METRIC_WIRE)
      sections.push(section(`material ${wire}-wire-${dashed(size)}mm`, [`${id} wire ${size} mm`]));
    for (const size of INCH_WIRE) {
      const text = inchFraction(size * 25.4);
      sections.push(section(`material ${wire}-wire-${dashedInch(text)}`, [`${id} wire ${text}`]));
    }
  }
  return sections.join('');
}

const inches = (table: GaugeTableId, number: number): string | undefined => {
  const found = gaugeThickness(table, number);
  return found && `${trim(found.value / 25.4, 4)} in`;
};

// ---- rivets --------------------------------------------------------------------------------------------------------

const RIVET_METALS: readonly { readonly id: MetalId; readonly name: string }[] = [
  { id: 'mild steel', name: 'steel' },
  { id: 'brass', name: 'brass' },
  { id: 'copper', name: 'copper' },
  { id: 'bronze', name: 'bronze' },
];
const RIVET_HEADS = ['domed', 'countersunk', 'flat'] as const;
/** Shank sizes of the two standards that armour uses, mm and parts of 32 of an inch. */
const METRIC_SHANKS = [2, 2.5, 3, 4, 5, 6] as const;
const INCH_SHANKS = [3, 4, 5, 6, 8] as const;
/** From twice to ten shanks long: shorter holds nothing, longer bends in the hole. */
const lengthsFor = (shank: number, ladder: readonly number[]): number[] =>
  ladder.filter((length) => length >= 1.9 * shank && length <= 8 * shank);

function rivets(): string {
  const sections: string[] = [];
  for (const { id, name } of RIVET_METALS) {
    for (const head of RIVET_HEADS) {
      for (const shank of METRIC_SHANKS) {
        for (const length of lengthsFor(shank, lengthLadders.mm.lengths)) {
          sections.push(
            section(`rivet ${name}-${head}-${dashed(shank)}x${dashed(length)}`, [
              `${id} ${shank} x ${length} mm, ${head}`,
            ]),
          );
        }
      }
      for (const parts of INCH_SHANKS) {
        const shank = (parts / 32) * 25.4;
        for (const length of lengthsFor(shank, lengthLadders.in.lengths)) {
          const [d, l] = [inchFraction(shank), inchFraction(length, 16)];
          sections.push(
            section(`rivet ${name}-${head}-${dashedInch(d, '')}x${dashedInch(l)}`, [
              `${id} ${d.replace(' in', '')} x ${l}, ${head}`,
            ]),
          );
        }
      }
    }
  }
  return sections.join('');
}

// ---- leather and shop ----------------------------------------------------------------------------------------------

const OUNCES = [2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 14] as const;

function leather(): string {
  const sections = OUNCES.map((ounces) =>
    section(`material veg-tan-${ounces}oz`, [`veg-tan leather ${ounces} oz`], softMaterials['veg-tan leather'].title),
  );
  for (const ounces of [1, 2, 3]) sections.push(section(`material goatskin-${ounces}oz`, [`goatskin ${ounces} oz`]));
  for (const ounces of [2, 3]) sections.push(section(`material lambskin-${ounces}oz`, [`lambskin ${ounces} oz`]));
  for (const thickness of [3, 5, 10]) sections.push(section(`material felt-${thickness}mm`, [`felt ${thickness} mm`]));
  for (const thickness of [6, 12, 15, 20])
    sections.push(section(`material foam-${thickness}mm`, [`foam ${thickness} mm`]));
  return sections.join('');
}

function shop(): string {
  return section('shop plain-shop', ['gauges US', 'blade 32 tpi', 'heat torch']);
}

// ---- writing -------------------------------------------------------------------------------------------------------

const section = (header: string, lines: readonly string[], note?: string): string =>
  `\n${note ? `## ${note.replace(/\.?$/, '.')}\n` : ''}${header}\n${lines.map((line) => `  ${line}\n`).join('')}`;

/** `1.5` in a name: `1-5`. */
const dashed = (value: number): string => String(value).replace('.', '-');

/** `1 1/8 in` in a name: `1-1-8in`. */
const dashedInch = (text: string, unit = 'in'): string => `${text.replace(' in', '').replace(/[ /]/g, '-')}${unit}`;
