// Everything that is set as PDF: a program of its own, loaded when the first PDF is asked for.
export { writePatternsPdf } from './patterns-pdf.ts';
export { writePdf } from './pdf.ts';
