/** The functions of arithmetic, as hover and completion say them. */
export const FUNCTIONS: readonly { readonly name: string; readonly notation: string; readonly doc: string }[] = [
  { name: 'sqrt', notation: 'sqrt(area)', doc: 'Square root: of an area it is a length.' },
  { name: 'min', notation: 'min(a, b, …)', doc: 'The least of them.' },
  { name: 'max', notation: 'max(a, b, …)', doc: 'The greatest of them.' },
  { name: 'sin', notation: 'sin(angle)', doc: 'Sine of an angle.' },
  { name: 'cos', notation: 'cos(angle)', doc: 'Cosine of an angle.' },
  { name: 'tan', notation: 'tan(angle)', doc: 'Tangent of an angle.' },
  {
    name: 'round-up',
    notation: 'round-up(measure, step)',
    doc: 'Up to the next whole step: round-up(268 mm, 5 mm) is 270 mm.',
  },
];
