/** Every kind of file that anything is written as. The name is the ending. */
export const FILE_FORMATS = {
  html: { label: 'HTML', mediaType: 'text/html' },
  pdf: { label: 'PDF', mediaType: 'application/pdf' },
  csv: { label: 'CSV', mediaType: 'text/csv' },
  md: { label: 'Markdown', mediaType: 'text/markdown' },
  json: { label: 'JSON', mediaType: 'application/json' },
  svg: { label: 'SVG', mediaType: 'image/svg+xml' },
  dxf: { label: 'DXF', mediaType: 'image/vnd.dxf' },
} as const;

export type FileFormat = keyof typeof FILE_FORMATS;
