// The same plain records in the notations of the other servers: a name, seven facts and a cross reference each.

const MATERIALS = ['mild', 'spring', 'brass', 'copper'];
const FINISHES = ['satin', 'mirror', 'black', 'raw'];

const record = (i: number) => ({
  name: `part_${i}`,
  material: MATERIALS[i % 4]!,
  finish: FINISHES[(i * 7) % 4]!,
  thickness: Number((0.8 + (i % 9) * 0.15).toFixed(2)),
  width: 40 + ((i * 13) % 200),
  height: 30 + ((i * 17) % 180),
  note: `row ${i % 12}, place ${i % 5}`,
  joins: i < 2 ? [] : [`part_${i - 1}`, `part_${i - 2}`],
});
const records = (count: number) => Array.from({ length: count }, (_, i) => record(i));

export function json(lines: number): string {
  const parts = records(Math.floor((lines - 4) / 10)).map((each) => {
    const facts = Object.entries(each).map(([key, value]) => `      "${key}": ${JSON.stringify(value)}`);
    return `    {\n${facts.join(',\n')}\n    }`;
  });
  return `{\n  "parts": [\n${parts.join(',\n')}\n  ]\n}\n`;
}

export function yaml(lines: number): string {
  const parts = records(Math.floor((lines - 1) / 8)).map((each) =>
    Object.entries(each)
      .map(([key, value], i) => {
        const written = Array.isArray(value)
          ? `[${value.join(', ')}]`
          : typeof value === 'string' && value.includes(' ')
            ? JSON.stringify(value)
            : value;
        return `${i ? '    ' : '  - '}${key}: ${written}`;
      })
      .join('\n'),
  );
  return `parts:\n${parts.join('\n')}\n`;
}

/** A little block language, for langium. */
export function blocks(lines: number): string {
  return records(Math.floor(lines / 9))
    .map(({ name, material, finish, thickness, width, height, note, joins }) => {
      const last = joins.length ? `joins ${joins.join(', ')}` : '// none';
      return `part ${name} {\n  material ${material}\n  finish ${finish}\n  thickness ${thickness} mm\n  width ${width} mm\n  height ${height} mm\n  note "${note}"\n  ${last}\n}\n`;
    })
    .join('');
}

/** What the JSON and the YAML are held against. */
export const schema = {
  $schema: 'http://json-schema.org/draft-07/schema#',
  type: 'object',
  required: ['parts'],
  additionalProperties: false,
  properties: {
    parts: {
      type: 'array',
      items: {
        type: 'object',
        required: ['name', 'material', 'thickness', 'width', 'height'],
        additionalProperties: false,
        properties: {
          name: { type: 'string', pattern: '^[a-z_][a-z0-9_]*$', description: 'Name' },
          material: { enum: MATERIALS },
          finish: { enum: FINISHES },
          thickness: { type: 'number', minimum: 0.3, maximum: 6 },
          width: { type: 'number', minimum: 1 },
          height: { type: 'number', minimum: 1 },
          note: { type: 'string', maxLength: 200 },
          joins: { type: 'array', items: { type: 'string' }, uniqueItems: true },
        },
      },
    },
  },
};
