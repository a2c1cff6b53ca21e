/** A work of somebody else, and where its text can be read. */
export interface Work {
  readonly author: string;
  readonly title: string;
  /** Of printing, or of what was read. */
  readonly year: string;
  readonly read: string;
}

/**
 * Works whose examples, laws or programs ours are held against. `source` of a row that names one is the place in it.
 * A work counts once, however many rows it has.
 */
export const WORKS = {
  // ---- the trade ---------------------------------------------------------------------------------------------------
  atkins: {
    author: 'E. A. Atkins',
    title: 'Practical Sheet and Plate Metal Work',
    year: '1908',
    read: 'chestofbooks.com/crafts/metal/Sheet-And-Plate-Metal-Work',
  },
  butt: {
    author: 'I. R. Butt',
    title: 'The Tinman’s Manual and Builder’s and Mechanic’s Handbook',
    year: 'about 1860',
    read: 'chestofbooks.com/crafts/metal/Builder-Mechanic',
  },
  curioustab: {
    author: 'Curioustab',
    title: 'Obtaining a cup of diameter 25 mm and height 15 mm by drawing',
    year: 'undated',
    read: 'curioustab.com/obtaining-cup-diameter-25-mm-height-15-mm-drawing-size-round-65922',
  },
  datsko: {
    author: 'eHow',
    title: 'How to Calculate the Bend Radius of Steel (the rule of J. Datsko and C. T. Yang)',
    year: 'undated',
    read: 'ehow.co.uk/how_7908593_calculate-bend-radius-steel.html',
  },
  faa: {
    author: 'Federal Aviation Administration',
    title: 'AC 43.13-1B, Acceptable Methods, Techniques and Practices: Aircraft Inspection and Repair',
    year: '1998',
    read: 'landseaskyspace.com/ac4313',
  },
  gate: {
    author: 'Indian Institutes of Technology',
    title: 'Graduate Aptitude Test in Engineering, papers of past years',
    year: '2005 and 2006',
    read: 'questions.examside.com/past-years/gate/gate-me/production-engineering',
  },
  handbook: {
    author: 'E. Oberg and others',
    title: 'Machinery’s Handbook, 31st edition',
    year: '2020',
    read: 'online.flippingbook.com/view/954192180',
  },
  hodgson: {
    author: 'R. B. Hodgson',
    title: 'Machines and Tools Employed in the Working of Sheet Metals',
    year: '1903',
    read: 'chestofbooks.com/crafts/metal/Sheet-Metal-Work',
  },
  holtzapffel: {
    author: 'C. Holtzapffel',
    title: 'Turning and Mechanical Manipulation, volume I',
    year: '1843',
    read: 'chestofbooks.com/home-improvement/workshop/Turning-Mechanical',
  },
  longfield: {
    author: 'E. M. Longfield',
    title: 'Sheet Metal Drafting',
    year: '1921',
    read: 'en.wikisource.org/wiki/Sheet_metal_drafting',
  },
  nothing: {
    author: 'Field of Nothing',
    title: 'How much force is required to punch a hole 1 cm in diameter in a steel sheet 5 mm thick',
    year: '2020',
    read: 'fieldofnothing.blogspot.com/2020/04/how-much-force-is-required-to-punch.html',
  },
  lines: {
    author: 'Aircraft Systems Tech',
    title: 'Making Straight Line Bends',
    year: '2017',
    read: 'aircraftsystemstech.com/2017/06/making-straight-line-bends.html',
  },
  paint: {
    author: 'a maker of paint, not named',
    title: 'Spreading rates of coatings',
    year: 'undated',
    read: 'scribd.com/document/343849341',
  },
  rose: {
    author: 'A. F. Rose',
    title: 'Copper Work',
    year: '1906',
    read: 'bitlit.ru/page/en/augustus-f-rose/copper-work-a-text-book-for-teachers-and-students-in-the-manual-arts',
  },
  shopPractice: {
    author: 'American Technical Society',
    title: 'Shop Practice, volume II',
    year: 'about 1910',
    read: 'chestofbooks.com/crafts/machinery/Shop-Practice-V2',
  },
  steelworker: {
    author: 'US Navy',
    title: 'Steelworker, volume 2 (NAVEDTRA 14251)',
    year: '1996',
    read: 'tpub.com/steelworker2/22.htm',
  },

  tinsmith: {
    author: 'U.P.C. Book Company',
    title: 'The New Tinsmith’s Helper and Pattern Book',
    year: '1917',
    read: 'books.google.com/books?id=NjgKAAAAIAAJ, passages of pages 6 to 20',
  },
  vmsec: {
    author: 'VMsec',
    title: 'Weigh the iron plate (with holes)',
    year: '2017',
    read: 'vmsec.wordpress.com/2017/10/08/weigh-the-iron-plate-with-holes',
  },

  // ---- measuring ---------------------------------------------------------------------------------------------------
  archimedes: {
    author: 'Archimedes, by T. L. Heath',
    title: 'On the Sphere and Cylinder, in: A History of Greek Mathematics, volume II',
    year: '1921',
    read: 'goobi.tib.eu/viewer/fulltext/1004724942/51',
  },
  cbse: {
    author: 'Central Board of Secondary Education, India',
    title: 'Mathematics for class X, papers of past years with solutions',
    year: '2006 to 2017',
    read: 'solved examples of a class X book, “Volume and Surface Area of a Frustum of a Cone”',
  },
  drang: {
    author: 'Dr. Drang',
    title: 'Mechanics, problem 66',
    year: 'undated',
    read: 'github.com/drdrang/mechanics, src/problem066.md',
  },
  gauss: {
    author: 'C. F. Gauss',
    title: 'General Investigations of Curved Surfaces, 1827, translated by J. C. Morehead and A. M. Hiltebeitel',
    year: '1902',
    read: 'gutenberg.org/ebooks/36856',
  },
  heron: {
    author: 'Heron of Alexandria, by T. L. Heath',
    title: 'Metrica, in: A History of Greek Mathematics, volume II, p. 331',
    year: '1921',
    read: 'goobi.tib.eu/viewer/fulltext/1004724942/348',
  },
  legendre: {
    author: 'A. M. Legendre, by C. Davies',
    title: 'Elements of Geometry and Trigonometry',
    year: 'undated',
    read: 'books.google.com/books?id=UQcUAAAAYAAJ',
  },
  mathalino: {
    author: 'R. Verterra',
    title: 'MATHalino, reviewer in solid mensuration',
    year: 'undated',
    read: 'mathalino.com/reviewer/solid-mensuration-solid-geometry/004-hemispherical-dome-covered-gold',
  },
  ncert: {
    author: 'National Council of Educational Research and Training',
    title: 'Mathematics, textbook for class X, chapter 13',
    year: '2006',
    read: 'ask.truemaths.com and mycbseguide.com, exercise 13.4 with answers',
  },
  pocketbook: {
    author: 'International Correspondence Schools',
    title: 'The Building Trades Pocketbook',
    year: 'about 1900',
    read: 'chestofbooks.com/architecture/Building-Trades-Pocketbook/Mensuration-Part-2.html',
  },
  sangakoo: {
    author: 'Sangakoo',
    title: 'The spherical dome: surface area and volume',
    year: 'undated',
    read: 'sangakoo.com/en/areas-and-volumes-of-geometric-bodies/the-spherical-dome-surface-area-and-volume/exercises',
  },
  slaught: {
    author: 'H. E. Slaught and N. J. Lennes',
    title: 'Solid Geometry with Problems and Applications, revised edition',
    year: '1919',
    read: 'gutenberg.org/ebooks/29807',
  },
  thomas: {
    author: 'G. B. Thomas and others',
    title: 'Thomas’ Calculus',
    year: '2010',
    read: 'chapter 6',
  },
  weisstein: {
    author: 'E. W. Weisstein',
    title: 'MathWorld, Zone',
    year: 'undated',
    read: 'mathworld.wolfram.com/Zone.html',
  },

  // ---- the shape of the earth, and programs ------------------------------------------------------------------------
  bezier: {
    author: 'M. Kamermans',
    title: 'bezier-js, version 6.1.4',
    year: '2024',
    read: 'npm',
  },
  boost: {
    author: 'J. Maddock',
    title: 'Boost.Math, test/ellint_e_data.ipp: E(k) to fifty figures',
    year: '2006',
    read: 'github.com/boostorg/math',
  },
  chromium: {
    author: 'The Chromium Authors',
    title: 'Chromium, lengths of SVG paths',
    year: 'as installed',
    read: 'Debian',
  },
  clipper: {
    author: 'A. Johnson',
    title: 'Clipper2, in its port clipper2-ts 2.0.1',
    year: '2025',
    read: 'npm',
  },
  d3: { author: 'M. Bostock', title: 'd3-geo, version 3.1.1', year: '2024', read: 'npm' },
  ezdxf: { author: 'M. Moitzi', title: 'ezdxf, a reader of DXF', year: 'as installed', read: 'Debian' },
  karney: {
    author: 'C. F. F. Karney',
    title: 'Algorithms for geodesics, Journal of Geodesy 87, 43–55, and its program geographiclib-geodesic 2.2.0',
    year: '2013',
    read: 'npm',
  },
  maple: {
    author: 'Maplesoft',
    title: 'Maple Help, ellipsoid',
    year: 'undated',
    read: 'maplesoft.com/support/help/maple/view.aspx?path=ellipsoid',
  },
  mlMatrix: { author: 'ml.js', title: 'ml-matrix, version 6.15.1: singular values', year: '2025', read: 'npm' },
  moritz: {
    author: 'H. Moritz',
    title: 'Geodetic Reference System 1980',
    year: '1980',
    read: 'geodis.dgfi.badw.de/index.php?id=71',
  },
  poppler: { author: 'freedesktop.org', title: 'Poppler, pdftoppm', year: 'as installed', read: 'Debian' },
  postgis: {
    author: 'The PostGIS project',
    title: 'PostGIS 3.3 Manual',
    year: '2022',
    read: 'Debian’s postgis-doc 3.3.2',
  },
  resvg: { author: 'Y. Reizner', title: 'resvg, version 2.6.2 of its binding', year: '2024', read: 'npm' },
  scipy: {
    author: 'The SciPy community',
    title: 'SciPy 1.10.1 Reference',
    year: '2023',
    read: 'Debian’s python-scipy-doc 1.10.1',
  },
  xatlas: { author: 'J. Young', title: 'xatlas, as xatlasjs 0.2.0', year: '2023', read: 'npm' },
} as const satisfies Readonly<Record<string, Work>>;

export type WorkId = keyof typeof WORKS;

/** What a row of a work says of where it is from. */
export const cited = (id: WorkId, place: string): string => {
  const { author, title, year } = WORKS[id];
  return `${author}, ${title}, ${year}: ${place}`;
};
