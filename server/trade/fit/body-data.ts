/*
 * How large people are: percentiles of the US Army anthropometric survey of 2010 to 2012 (ANSUR II, 4082 men and 1986 women),
 * measured to the definitions of its report, NATICK/TR-15/007. The raw data are a public release of the US Army (2017), free
 * to use; the percentiles here were worked out from them, with straight lines between the ranks.
 *
 * Mind: the survey keeps the distance between the pupils in tenths of a millimetre (and weight in tenths of a kilogram); here
 * all is in millimetres. Girths are of bare skin, those of the upper arm and the forearm of a tensed limb. Its people are
 * soldiers: no children, and not the heaviest civilians.
 */

/** The ranks that the rows give, percent of people at or below. */
export const RANKS = [1, 5, 10, 25, 50, 75, 90, 95, 99] as const;

export interface BodyRow {
  /** What the survey calls it. */
  readonly survey: string;
  /** mm at each of {@link RANKS}. */
  readonly man: readonly number[];
  readonly woman: readonly number[];
  /** Where the survey's measure is not quite what the trade's word says. */
  readonly note?: string;
}

/** The survey's measure for each measure of the language that has one. */
export const bodyRows: Readonly<Record<string, BodyRow>> = {
  'head round': {
    survey: 'headcircumference',
    man: [538, 548, 554, 563, 574, 585, 595, 601, 614.19],
    woman: [521, 532, 538, 548, 560, 573, 587, 597, 611],
  },
  'head length': {
    survey: 'headlength',
    man: [182, 188, 191, 195, 200, 204, 208, 211, 215],
    woman: [171.85, 178, 180, 185, 190, 195, 199, 202, 208],
  },
  'head breadth': {
    survey: 'headbreadth',
    man: [142, 146, 147, 151, 154, 158, 161, 163, 168],
    woman: [136, 140, 141, 144, 147, 151, 154, 156, 160],
  },
  'eye distance': {
    survey: 'interpupillarybreadth',
    man: [56, 58.5, 60, 61.5, 64, 66, 68.5, 70, 72.5],
    woman: [53.5, 55.5, 57, 59.5, 62, 64, 66.5, 67.5, 70.5],
  },
  'face length': {
    survey: 'mentonsellionlength',
    man: [107, 112, 114, 118, 123, 127, 131, 134, 138],
    woman: [100, 104, 105, 109, 113, 117, 121, 123, 128],
  },
  'neck round': {
    survey: 'neckcircumference',
    man: [346, 360, 367, 379.25, 395, 413.75, 432, 443, 467.19],
    woman: [291, 302, 307, 316, 328, 342, 355, 363, 384.15],
  },
  'shoulder breadth': {
    survey: 'bideltoidbreadth',
    man: [439, 459, 470, 489, 509, 531, 553, 567, 593],
    woman: [388, 406, 415, 430, 450, 469, 488, 499, 522],
    note: 'Over the deltoids, the widest place.',
  },
  'chest round': {
    survey: 'chestcircumference',
    man: [872.81, 922, 948, 996, 1056, 1117, 1172, 1207, 1276.19],
    woman: [784, 824.25, 845, 889, 940, 999, 1057, 1094, 1160.15],
  },
  'chest breadth': {
    survey: 'chestbreadth',
    man: [250, 261, 266, 277, 289, 301, 313, 320, 335],
    woman: [232, 241, 246, 257, 268, 281, 294, 302, 313.15],
  },
  'chest depth': {
    survey: 'chestdepth',
    man: [197.81, 211, 220, 236, 253, 272, 288, 298, 316],
    woman: [189.85, 205, 213, 228, 245, 266, 284, 295.75, 321.15],
  },
  'waist round': {
    survey: 'waistcircumference',
    man: [724.81, 768, 797, 857, 937, 1016, 1086, 1130.95, 1214],
    woman: [665, 710, 739, 790, 852, 925, 995, 1040, 1115.05],
  },
  'waist to throat': {
    survey: 'waistfrontlengthsitting',
    man: [324, 342, 351, 367, 386, 407, 427, 438, 459.19],
    woman: [304, 317, 325, 338, 355, 370, 387, 396, 413],
    note: 'The survey takes it seated, from the navel to the pit of the throat.',
  },
  'back length': {
    survey: 'waistbacklength',
    man: [415, 433, 443, 459.25, 477, 495, 513, 524, 548.19],
    woman: [364.85, 384, 394, 407, 424.5, 442, 459.5, 470, 494.15],
    note: 'From the neck bone to the height of the navel.',
  },
  'upper arm round': {
    survey: 'bicepscircumferenceflexed',
    man: [280, 303, 315, 335, 357, 380, 402, 418, 448],
    woman: [244, 259, 268, 285, 304, 324, 347, 360, 388],
  },
  'upper arm length': {
    survey: 'shoulderelbowlength',
    man: [322.81, 334, 340.1, 352, 363, 376, 387, 394, 408],
    woman: [292, 307, 313, 323, 334, 346, 357, 363, 376],
    note: 'From the point of the shoulder to the underside of the bent elbow.',
  },
  'forearm round': {
    survey: 'forearmcircumferenceflexed',
    man: [263, 275, 283, 295, 310, 324, 338, 347.95, 365],
    woman: [225, 235, 241, 251, 263, 276, 287, 296, 312.15],
  },
  'forearm length': {
    survey: 'radialestylionlength',
    man: [235, 244, 248, 257, 267, 278, 288, 295, 308],
    woman: [209.85, 218, 223, 232, 240.5, 251, 262, 268, 279],
    note: 'From the outer elbow joint to the wrist bone.',
  },
  'wrist round': {
    survey: 'wristcircumference',
    man: [156, 162, 165, 170, 176, 182, 187, 191, 198],
    woman: [138, 142.25, 145, 150, 154, 160, 165, 168, 174],
  },
  'hand breadth': {
    survey: 'handbreadth',
    man: [78, 81, 83, 85, 88, 91, 94, 96, 99],
    woman: [69.85, 72, 73, 75, 78, 80, 83, 85, 87],
  },
  'hand length': {
    survey: 'handlength',
    man: [172, 177, 181, 187, 193, 200, 206, 210, 218],
    woman: [160, 165, 169, 174, 180, 187, 194, 199, 207],
  },
  'hand round': {
    survey: 'handcircumference',
    man: [189, 195, 199, 206, 212, 219, 225, 230, 237],
    woman: [167, 173, 175, 180, 187, 192, 198, 202, 207],
  },
  'thigh round': {
    survey: 'thighcircumference',
    man: [497, 532, 551, 586, 624, 662, 698, 723, 774],
    woman: [495, 527, 544, 579, 613, 651, 687.5, 711, 757],
  },
  'calf round': {
    survey: 'calfcircumference',
    man: [329.81, 346, 355, 372, 392, 412, 430, 443, 467],
    woman: [312.7, 328, 338, 354, 372, 391.75, 410, 423, 452],
  },
  'ankle round': {
    survey: 'anklecircumference',
    man: [198, 206, 211, 219.25, 228, 239, 248, 254, 268],
    woman: [185, 193, 197, 205, 215, 225, 235, 242, 255],
  },
  'face breadth': {
    survey: 'bizygomaticbreadth',
    man: [129, 133, 135, 138, 143, 147, 150, 153, 158],
    woman: [122, 125, 126, 130, 134, 137, 141, 143, 147],
  },
  'hip round': {
    survey: 'buttockcircumference',
    man: [861.81, 899, 922, 967, 1017, 1068, 1118, 1149, 1218],
    woman: [867, 901.25, 926, 969, 1018.5, 1069, 1117, 1155.75, 1206.3],
    note: 'Over the buttocks, the widest place.',
  },
  'hip breadth': {
    survey: 'hipbreadth',
    man: [295, 308, 316, 329.25, 344, 361, 377, 387, 408.19],
    woman: [293, 311, 320.5, 336, 353, 370, 387, 400, 423],
  },
  'foot round': {
    survey: 'heelanklecircumference',
    man: [307, 317, 323, 333, 343, 354, 365, 372, 385],
    woman: [277, 287, 292, 300, 310, 320, 330, 337, 348],
  },
};

/** Mean and standard deviation of those that are estimated from each other, mm. */
export const bodyMeans = {
  'head round': { man: { mean: 574.37, spread: 16.05 }, woman: { mean: 561.12, spread: 19.36 } },
  'head length': { man: { mean: 199.5, spread: 7.02 }, woman: { mean: 189.82, spread: 7.45 } },
  'head breadth': { man: { mean: 154.33, spread: 5.53 }, woman: { mean: 147.77, spread: 5.19 } },
  /** The ear hole to the top of the head. */
  'ear to top': { man: { mean: 131.15, spread: 6.16 }, woman: { mean: 126.48, spread: 6.55 } },
  /** Seated, the floor of the seat to the top of the head and to the corner of the eye. */
  'sitting height': { man: { mean: 918.29, spread: 35.7 }, woman: { mean: 856.63, spread: 33.05 } },
  'sitting eye height': { man: { mean: 804.51, spread: 33.16 }, woman: { mean: 747.69, spread: 30.38 } },
} as const;
