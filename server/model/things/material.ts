import { listWord } from '../../../grammar/vocabulary/index.ts';
import { inARow, say } from '../../../l10n/say.ts';
import { isOutline, type NoOutline, type OutlineIn } from '../../geometry/drawings/outline-in.ts';
import { once } from '../../incremental/memo.ts';
import { minimumBendRadius } from '../../trade/bend/bend.ts';
import { drawnArea } from '../../trade/blank/drawn.ts';
import { ounceThickness, type SoftId, type SoftMaterial, softMaterials } from '../../trade/leather/leather.ts';
import { areaMass } from '../../trade/mass/mass.ts';
import { type GaugeTableId, gaugeTableFor, gaugeTables, gaugeThickness } from '../../trade/metal/gauges.ts';
import { type Sourced, shearByTensile } from '../../trade/metal/metals.ts';
import { millTolerance } from '../../trade/metal/stock.ts';
import { OF_HIDE } from '../../trade/reckoning/bounds.ts';
import { ends, intervalOf, through } from '../../trade/reckoning/interval.ts';
import { fromSpec, stated } from '../../trade/reckoning/readings.ts';
import type { Result, Unit } from '../../trade/reckoning/result.ts';
import { outlineOf } from '../names/drawn.ts';
import type { LineReading } from '../names/line-reading.ts';
import type { Figure } from '../values/figure.ts';
import { FigureSet } from '../values/figure-set.ts';
import { numberOf } from '../values/quantity.ts';
import { StockThing } from './thing.ts';

export type MaterialKind = 'sheet' | 'wire' | 'soft';

export interface Sheet {
  readonly line: LineReading;
  readonly long: number;
  readonly wide: number;
  readonly price?: number;
  readonly have?: number;
}

/** A length that a wire is sold in. */
export interface Coil {
  readonly line: LineReading;
  /** mm */
  readonly length: number;
  /** Of one coil. */
  readonly price?: number;
  /** Coils in the rack. */
  readonly have?: number;
}

export interface Hide {
  readonly line: LineReading;
  /** mm² */
  readonly area?: number;
  /** Its outline in a drawing, or why that gives none; nothing where there is no such file. */
  readonly drawn?: OutlineIn | NoOutline;
  readonly price?: number;
  readonly have?: number;
}

/** A material as the spec gives it, with what the books say of it. */
export class MaterialModel extends StockThing<'material'> {
  readonly kind = once((): MaterialKind | undefined => {
    const id = this.stock()?.id;
    return id === 'metal' ? 'sheet' : id === 'wire' || id === 'soft' ? id : undefined;
  });

  readonly softId = once((): string | undefined => {
    const text = this.stock()?.text('soft');
    return text === undefined ? undefined : listWord('soft', text);
  });

  readonly soft = once((): SoftMaterial | undefined => {
    const id = this.softId();
    return id === undefined ? undefined : softMaterials[id as SoftId];
  });

  readonly gauge = once((): { number: number; table: GaugeTableId | undefined } | undefined => {
    const quantity = this.stock()?.quantity('thickness');
    const id = this.metalId();
    if (quantity?.dimension !== 'gauge' || !id) return undefined;
    const shape = this.kind() === 'wire' ? 'wire' : 'sheet';
    return { number: numberOf(quantity), table: gaugeTableFor(id, this.model.gaugeFamily(), shape) };
  });

  readonly sheets = once((): readonly Sheet[] => this.sized('sheet'));
  readonly offcuts = once((): readonly Sheet[] => this.sized('offcut'));

  private sized(id: string): Sheet[] {
    return this.lines.flatMap((line) => {
      if (line.id !== id) return [];
      const size = line.size('size');
      if (!size) return [];
      const price = line.measure('number', 'price', 'price');
      const have = line.count('have', 'have');
      return [
        {
          line,
          long: size[0],
          wide: size[1],
          ...(price === undefined ? {} : { price }),
          ...(have === undefined ? {} : { have }),
        },
      ];
    });
  }

  readonly coils = once((): readonly Coil[] =>
    this.lines.flatMap((line): Coil[] => {
      const length = line.id === 'coil' ? line.length('coil') : undefined;
      if (length === undefined || !(length > 0)) return [];
      const price = line.measure('number', 'price', 'price');
      const have = line.count('have', 'have');
      return [{ line, length, ...(price === undefined ? {} : { price }), ...(have === undefined ? {} : { have }) }];
    }),
  );

  readonly hides = once((): readonly Hide[] =>
    this.lines.flatMap((line): Hide[] => {
      if (line.id !== 'hide') return [];
      const file = line.text('file');
      const drawing = file === undefined ? undefined : line.file.drawing(file);
      const drawn = drawing && outlineOf(drawing, line.text('which', 'named'), OF_HIDE);
      const area =
        drawn && isOutline(drawn) ? drawnArea(drawn.outer, drawn.openings, '').value : line.measure('area', 'area');
      const price = line.measure('number', 'price', 'price');
      const have = line.count('have', 'have');
      return [
        {
          line,
          ...(area === undefined ? {} : { area }),
          ...(drawn ? { drawn } : {}),
          ...(price === undefined ? {} : { price }),
          ...(have === undefined ? {} : { have }),
        },
      ];
    }),
  );

  readonly margin = once(() => Math.max(0, this.line('margin')?.length('margin') ?? 0));
  readonly kerf = once(() => Math.max(0, this.line('kerf')?.length('kerf') ?? 0));

  readonly figures = once((): FigureSet => this.measures().and(BEHAVIOUR, (set) => this.addBehaviour(set)));

  private readonly measures = once((): FigureSet => {
    const set = new FigureSet(`material ${this.name}`, this.name);
    const stock = this.stock();
    if (!stock) return set;
    const { place } = stock;
    const thickness = this.thicknessResult();
    if (thickness) set.add('thickness', 'thickness', thickness, place, [], { decimals: 3 });
    for (const { line, drawn } of this.hides().slice(0, 1))
      if (drawn && isOutline(drawn))
        set.add(
          'hide',
          'area of a hide',
          drawnArea(drawn.outer, drawn.openings, say`The outline in ${line.text('file')}`),
          line.place,
          [],
        );
    const density = this.densityResult();
    if (density) set.add('density', 'density', density, this.line('density')?.place ?? place, []);
    if (thickness && density && this.kind() !== 'wire') {
      set.add(
        'mass-per-area',
        'mass of an area',
        {
          ...areaMass({ thickness: thickness.value, density: density.value }),
          ...ends(
            through(
              (t, ρ) => areaMass({ thickness: t!, density: ρ! }).value,
              intervalOf(thickness),
              intervalOf(density),
            ),
          ),
        },
        place,
        [`${this.name}.thickness`, `${this.name}.density`],
      );
    }
    const radius = thickness && this.kind() === 'sheet' ? this.bendRadiusResult(thickness.value) : undefined;
    if (radius)
      set.add('bend-radius', 'tightest bend', radius, this.line('bend radius')?.place ?? place, [
        `${this.name}.thickness`,
      ]);
    return set;
  });

  /** What the books say of how it behaves, or the spec where its smith knows better. */
  private addBehaviour(set: FigureSet): void {
    const metal = this.metal();
    const stock = this.stock();
    if (!metal || !stock) return;
    const asked = this.temper();
    const note =
      asked !== undefined && asked !== metal.temper
        ? say`No figures are known here for ${asked} ${metal.title}${metal.grade === undefined ? '' : say` (${metal.grade})`}: these are of ${metal.temper}. Write your own under the material.`
        : undefined;
    const put = (suffix: string, title: string, made: Result, line?: LineReading) =>
      set.add(suffix, title, note && !line ? { ...made, note } : made, line?.place ?? stock.place, []);
    const own = (id: 'yield' | 'tensile' | 'elongation', dimension: 'stress' | 'percent') => {
      const line = this.line(id);
      const value = line?.measure(dimension, id);
      return line && value !== undefined && value > 0 ? { line, value } : undefined;
    };
    const strength = own('yield', 'stress');
    put(
      'yield',
      'stress at which it takes a set',
      strength ? fromSpec(strength.value, 'MPa', 'Sy') : sourced(metal.yield, 'MPa', 'Sy'),
      strength?.line,
    );
    const tensile = own('tensile', 'stress');
    put(
      'tensile',
      'tensile strength',
      tensile ? fromSpec(tensile.value, 'MPa', 'Su') : sourced(metal.tensile, 'MPa', 'Su'),
      tensile?.line,
    );
    const stretch = own('elongation', 'percent');
    put(
      'elongation',
      'stretch at the break',
      stretch ? fromSpec(stretch.value, 'percent', 'A') : sourced(metal.elongation, 'percent', 'A'),
      stretch?.line,
    );
    const delivered = this.thickness();
    const either =
      this.kind() === 'sheet' && this.metalId() === 'mild steel' && delivered && this.toleranceSaid() === undefined
        ? millTolerance(delivered.value)
        : undefined;
    if (either && delivered)
      set.add('tolerance', 'how much the mill may be off', either, stock.place, [delivered.name]);
    const shear = tensile ? shearByTensile({ tensile: tensile.value, metal }) : sourced(metal.shear, 'MPa', 'τ');
    set.add('shear', 'shear strength', shear, stock.place, tensile ? [`${this.name}.tensile`] : []);
    put('hardening', 'strain-hardening exponent', sourced(metal.hardening, 'ratio', 'n'));
    put('strain-before-anneal', 'strain before an anneal is due', sourced(metal.strainBeforeAnneal, 'ratio', 'ε'));
  }

  /** Real thickness, or a wire's diameter, mm. */
  thickness(): Figure | undefined {
    return this.figures().get('thickness');
  }

  density(): Figure | undefined {
    return this.figures().get('density');
  }

  private thicknessResult(): Result | undefined {
    const quantity = this.stock()?.quantity('thickness');
    if (!quantity) return undefined;
    const value = numberOf(quantity);
    if (!(value > 0) || !Number.isFinite(value)) return undefined;
    if (quantity.dimension === 'length') {
      const made = fromSpec(value, 'mm', 't');
      const either = this.toleranceSaid();
      return either === undefined
        ? made
        : {
            ...made,
            low: Math.max(0, value - either),
            high: value + either,
            source: say`${made.source}, with its tolerance`,
          };
    }
    if (quantity.dimension === 'ounce' && this.kind() === 'soft') return ounceThickness(value);
    const gauge = this.gauge();
    if (!gauge?.table) return undefined;
    const found = gaugeThickness(gauge.table, gauge.number);
    return (
      found && {
        ...found,
        note: inARow(say`Table: ${gaugeTables[gauge.table].title}.`, found.note),
      }
    );
  }

  /** The `± 0.05 mm` behind a thickness, mm. */
  private toleranceSaid(): number | undefined {
    const stock = this.stock();
    const item = stock?.filled('thickness')?.items[0];
    const tolerance = item?.kind === 'measure' ? item.tolerance : undefined;
    const quantity = stock && tolerance && stock.file.quantity(tolerance, stock.line.section);
    const value = quantity?.dimension === 'length' ? numberOf(quantity) : undefined;
    return value !== undefined && value > 0 && Number.isFinite(value) ? value : undefined;
  }

  private densityResult(): Result | undefined {
    const said = this.line('density')?.measure('density', 'density');
    if (said !== undefined && said > 0) return fromSpec(said, 'g/cm3', 'ρ');
    const known = this.metal()?.density ?? this.soft()?.density;
    return known && sourced(known, 'g/cm3', 'ρ');
  }

  private bendRadiusResult(thickness: number): Result | undefined {
    const said = this.line('bend radius')?.length('radius');
    if (said !== undefined && said >= 0) return fromSpec(said, 'mm', 'R');
    const metal = this.metal();
    return metal && minimumBendRadius(metal, thickness, 'across');
  }
}

const BEHAVIOUR = /^(tolerance|yield|tensile|elongation|shear|hardening|strain-before-anneal)$/;

/** A property from a table, as a figure. */
const sourced = ({ value, low, high, basis, source }: Sourced, unit: Unit, symbol: string): Result =>
  stated(symbol, { value, ...(low === undefined || high === undefined ? {} : { low, high }), unit, basis, source });
