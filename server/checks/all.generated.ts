// Made by .scripts/generate-checks.ts from the files of the folder rules. Do not edit.
import { check as aluminiumWithSteelDust } from './rules/safety/aluminium-with-steel-dust.ts';
import { check as bendAlongGrain } from './rules/forming/bend-along-grain.ts';
import { check as bendTooTight } from './rules/forming/bend-too-tight.ts';
import { check as bladeTooCoarse } from './rules/holes/blade-too-coarse.ts';
import { check as blankNeedsJoint } from './rules/blanks/blank-needs-joint.ts';
import { check as blankNotKnown } from './rules/blanks/blank-not-known.ts';
import { check as blankOverSheet } from './rules/blanks/blank-over-sheet.ts';
import { check as blankTooLarge } from './rules/blanks/blank-too-large.ts';
import { check as blankTooSmall } from './rules/blanks/blank-too-small.ts';
import { check as cadmiumPlating } from './rules/safety/cadmium-plating.ts';
import { check as cannotBePutOn } from './rules/fit/cannot-be-put-on.ts';
import { check as chromiumFume } from './rules/safety/chromium-fume.ts';
import { check as clearanceSmall } from './rules/fit/clearance-small.ts';
import { check as commaStray } from './rules/language/comma-stray.ts';
import { check as countTooLarge } from './rules/language/count-too-large.ts';
import { check as countersinkTooDeep } from './rules/rivets/countersink-too-deep.ts';
import { check as crownTooThin } from './rules/forming/crown-too-thin.ts';
import { check as currencyMixed } from './rules/stock-and-money/currency-mixed.ts';
import { check as definitionCircle } from './rules/language/definition-circle.ts';
import { check as domeImpossible } from './rules/forming/dome-impossible.ts';
import { check as domeTooDeepForGauge } from './rules/forming/dome-too-deep-for-gauge.ts';
import { check as drawingMissing } from './rules/language/drawing-missing.ts';
import { check as drawingUnitUnsaid } from './rules/blanks/drawing-unit-unsaid.ts';
import { check as drawingUnusable } from './rules/blanks/drawing-unusable.ts';
import { check as dustAndNoise } from './rules/safety/dust-and-noise.ts';
import { check as dutyNotCertified } from './rules/safety/duty-not-certified.ts';
import { check as edgeAgainstSkin } from './rules/fit/edge-against-skin.ts';
import { check as edgeTooFar } from './rules/rivets/edge-too-far.ts';
import { check as edgeTooNear } from './rules/rivets/edge-too-near.ts';
import { check as excuseUnclear } from './rules/language/excuse-unclear.ts';
import { check as excuseUnused } from './rules/language/excuse-unused.ts';
import { check as fallsShut } from './rules/joints/falls-shut.ts';
import { check as finishedUnderRules } from './rules/fit/finished-under-rules.ts';
import { check as flareWillSplit } from './rules/forming/flare-will-split.ts';
import { check as flushInThinPlate } from './rules/rivets/flush-in-thin-plate.ts';
import { check as fluteTooDeep } from './rules/forming/flute-too-deep.ts';
import { check as formImpossible } from './rules/forming/form-impossible.ts';
import { check as frontHeavy } from './rules/fit/front-heavy.ts';
import { check as galvanicPair } from './rules/finish-and-order/galvanic-pair.ts';
import { check as gaugeNotInTable } from './rules/material/gauge-not-in-table.ts';
import { check as gaugeOddForMetal } from './rules/material/gauge-odd-for-metal.ts';
import { check as gritJump } from './rules/finish-and-order/grit-jump.ts';
import { check as hardenNeedsCarbon } from './rules/forming/harden-needs-carbon.ts';
import { check as hardenedNotTempered } from './rules/forming/hardened-not-tempered.ts';
import { check as headDoesNotFit } from './rules/fit/head-does-not-fit.ts';
import { check as heatAfterFinish } from './rules/finish-and-order/heat-after-finish.ts';
import { check as heatAfterTemper } from './rules/forming/heat-after-temper.ts';
import { check as heatUnlikely } from './rules/forming/heat-unlikely.ts';
import { check as hemTooThick } from './rules/forming/hem-too-thick.ts';
import { check as hingeLinesCurved } from './rules/hinges/hinge-lines-curved.ts';
import { check as holeDoesNotFitRivet } from './rules/rivets/hole-does-not-fit-rivet.ts';
import { check as holeNearBend } from './rules/holes/hole-near-bend.ts';
import { check as holeNearEdge } from './rules/holes/hole-near-edge.ts';
import { check as holeSmallerThanThickness } from './rules/holes/hole-smaller-than-thickness.ts';
import { check as hotWork } from './rules/safety/hot-work.ts';
import { check as jointNotKnown } from './rules/joints/joint-not-known.ts';
import { check as knucklesUneven } from './rules/hinges/knuckles-uneven.ts';
import { check as leadSolder } from './rules/safety/lead-solder.ts';
import { check as leatherBeforeHeat } from './rules/finish-and-order/leather-before-heat.ts';
import { check as leatherWeightOdd } from './rules/material/leather-weight-odd.ts';
import { check as letterLost } from './rules/language/letter-lost.ts';
import { check as lineMissing } from './rules/language/line-missing.ts';
import { check as lineOutsideSection } from './rules/language/line-outside-section.ts';
import { check as lineTwice } from './rules/language/line-twice.ts';
import { check as lineUnfinished } from './rules/language/line-unfinished.ts';
import { check as markUnknown } from './rules/language/mark-unknown.ts';
import { check as measureUnlikely } from './rules/fit/measure-unlikely.ts';
import { check as methodCannotReach } from './rules/forming/method-cannot-reach.ts';
import { check as nameMissing } from './rules/language/name-missing.ts';
import { check as nameReserved } from './rules/language/name-reserved.ts';
import { check as nameTwice } from './rules/language/name-twice.ts';
import { check as nameUnused } from './rules/language/name-unused.ts';
import { check as nestedTooDeep } from './rules/language/nested-too-deep.ts';
import { check as noStockLeft } from './rules/blanks/no-stock-left.ts';
import { check as notCounted } from './rules/stock-and-money/not-counted.ts';
import { check as numberForm } from './rules/language/number-form.ts';
import { check as numberImpossible } from './rules/language/number-impossible.ts';
import { check as openingBeforeForming } from './rules/forming/opening-before-forming.ts';
import { check as openingOverRules } from './rules/fit/opening-over-rules.ts';
import { check as orderCircle } from './rules/finish-and-order/order-circle.ts';
import { check as overlapLost } from './rules/joints/overlap-lost.ts';
import { check as paintUnderPatina } from './rules/finish-and-order/paint-under-patina.ts';
import { check as partMissing } from './rules/blanks/part-missing.ts';
import { check as patinaChemicals } from './rules/safety/patina-chemicals.ts';
import { check as pieceNotPlaced } from './rules/rivets/piece-not-placed.ts';
import { check as piecesRunThrough } from './rules/fit/pieces-run-through.ts';
import { check as pinDoesNotFit } from './rules/hinges/pin-does-not-fit.ts';
import { check as pinchesSkin } from './rules/joints/pinches-skin.ts';
import { check as pitchTooClose } from './rules/rivets/pitch-too-close.ts';
import { check as pitchTooWide } from './rules/rivets/pitch-too-wide.ts';
import { check as pivotsApart } from './rules/joints/pivots-apart.ts';
import { check as placeOffPiece } from './rules/holes/place-off-piece.ts';
import { check as platesBind } from './rules/joints/plates-bind.ts';
import { check as polishAfterPatina } from './rules/finish-and-order/polish-after-patina.ts';
import { check as priceMissing } from './rules/stock-and-money/price-missing.ts';
import { check as punchCannot } from './rules/holes/punch-cannot.ts';
import { check as rivetHarderThanPlate } from './rules/rivets/rivet-harder-than-plate.ts';
import { check as rivetInLeatherNeedsWasher } from './rules/rivets/rivet-in-leather-needs-washer.ts';
import { check as rivetTooLong } from './rules/rivets/rivet-too-long.ts';
import { check as rivetTooShort } from './rules/rivets/rivet-too-short.ts';
import { check as rivetTooThick } from './rules/rivets/rivet-too-thick.ts';
import { check as rivetTooThin } from './rules/rivets/rivet-too-thin.ts';
import { check as rivetsShort } from './rules/stock-and-money/rivets-short.ts';
import { check as rollAcrossSeam } from './rules/forming/roll-across-seam.ts';
import { check as rollOnSharpCurve } from './rules/forming/roll-on-sharp-curve.ts';
import { check as rollTooTight } from './rules/forming/roll-too-tight.ts';
import { check as roundOverHalf } from './rules/forming/round-over-half.ts';
import { check as rulesMissing } from './rules/fit/rules-missing.ts';
import { check as sealMissing } from './rules/finish-and-order/seal-missing.ts';
import { check as seamDoesNotMeet } from './rules/rivets/seam-does-not-meet.ts';
import { check as seamLengthsDiffer } from './rules/rivets/seam-lengths-differ.ts';
import { check as seamPiecesNotTouching } from './rules/rivets/seam-pieces-not-touching.ts';
import { check as sectionWrong } from './rules/language/section-wrong.ts';
import { check as sharpEdge } from './rules/safety/sharp-edge.ts';
import { check as shearCannot } from './rules/holes/shear-cannot.ts';
import { check as shrinkWillFold } from './rules/forming/shrink-will-fold.ts';
import { check as sideUnsaid } from './rules/forming/side-unsaid.ts';
import { check as signSpacing } from './rules/language/sign-spacing.ts';
import { check as slotNarrowerThanTool } from './rules/holes/slot-narrower-than-tool.ts';
import { check as slotTooShort } from './rules/joints/slot-too-short.ts';
import { check as solvent } from './rules/safety/solvent.ts';
import { check as stackGap } from './rules/rivets/stack-gap.ts';
import { check as strainNeedsAnneal } from './rules/forming/strain-needs-anneal.ts';
import { check as strainPastLimit } from './rules/forming/strain-past-limit.ts';
import { check as stripLongerThanSheet } from './rules/blanks/strip-longer-than-sheet.ts';
import { check as swingBlocked } from './rules/hinges/swing-blocked.ts';
import { check as templateImpossible } from './rules/forming/template-impossible.ts';
import { check as textOpen } from './rules/language/text-open.ts';
import { check as textureWillCurve } from './rules/forming/texture-will-curve.ts';
import { check as thicknessNotStocked } from './rules/material/thickness-not-stocked.ts';
import { check as tooHeavy } from './rules/fit/too-heavy.ts';
import { check as tooLong } from './rules/language/too-long.ts';
import { check as touchesHead } from './rules/fit/touches-head.ts';
import { check as unfinishedPiece } from './rules/finish-and-order/unfinished-piece.ts';
import { check as unitMismatch } from './rules/language/unit-mismatch.ts';
import { check as unitMissing } from './rules/language/unit-missing.ts';
import { check as unknownName } from './rules/language/unknown-name.ts';
import { check as unknownWord } from './rules/language/unknown-word.ts';
import { check as useCircle } from './rules/language/use-circle.ts';
import { check as useMissing } from './rules/language/use-missing.ts';
import { check as versionUnknown } from './rules/language/version-unknown.ts';
import { check as viewTooNarrow } from './rules/fit/view-too-narrow.ts';
import { check as visorJams } from './rules/joints/visor-jams.ts';
import { check as webTooThin } from './rules/holes/web-too-thin.ts';
import { check as weldAfterPlatingOrPaint } from './rules/finish-and-order/weld-after-plating-or-paint.ts';
import { check as wireShort } from './rules/stock-and-money/wire-short.ts';
import { check as wireTooThickForGauge } from './rules/forming/wire-too-thick-for-gauge.ts';
import { check as workingHasNoRoom } from './rules/forming/working-has-no-room.ts';
import { check as zincFume } from './rules/safety/zinc-fume.ts';
import type { Check } from './check.ts';

export const checks: readonly Check[] = [
  aluminiumWithSteelDust,
  bendAlongGrain,
  bendTooTight,
  bladeTooCoarse,
  blankNeedsJoint,
  blankNotKnown,
  blankOverSheet,
  blankTooLarge,
  blankTooSmall,
  cadmiumPlating,
  cannotBePutOn,
  chromiumFume,
  clearanceSmall,
  commaStray,
  countTooLarge,
  countersinkTooDeep,
  crownTooThin,
  currencyMixed,
  definitionCircle,
  domeImpossible,
  domeTooDeepForGauge,
  drawingMissing,
  drawingUnitUnsaid,
  drawingUnusable,
  dustAndNoise,
  dutyNotCertified,
  edgeAgainstSkin,
  edgeTooFar,
  edgeTooNear,
  excuseUnclear,
  excuseUnused,
  fallsShut,
  finishedUnderRules,
  flareWillSplit,
  flushInThinPlate,
  fluteTooDeep,
  formImpossible,
  frontHeavy,
  galvanicPair,
  gaugeNotInTable,
  gaugeOddForMetal,
  gritJump,
  hardenNeedsCarbon,
  hardenedNotTempered,
  headDoesNotFit,
  heatAfterFinish,
  heatAfterTemper,
  heatUnlikely,
  hemTooThick,
  hingeLinesCurved,
  holeDoesNotFitRivet,
  holeNearBend,
  holeNearEdge,
  holeSmallerThanThickness,
  hotWork,
  jointNotKnown,
  knucklesUneven,
  leadSolder,
  leatherBeforeHeat,
  leatherWeightOdd,
  letterLost,
  lineMissing,
  lineOutsideSection,
  lineTwice,
  lineUnfinished,
  markUnknown,
  measureUnlikely,
  methodCannotReach,
  nameMissing,
  nameReserved,
  nameTwice,
  nameUnused,
  nestedTooDeep,
  noStockLeft,
  notCounted,
  numberForm,
  numberImpossible,
  openingBeforeForming,
  openingOverRules,
  orderCircle,
  overlapLost,
  paintUnderPatina,
  partMissing,
  patinaChemicals,
  pieceNotPlaced,
  piecesRunThrough,
  pinDoesNotFit,
  pinchesSkin,
  pitchTooClose,
  pitchTooWide,
  pivotsApart,
  placeOffPiece,
  platesBind,
  polishAfterPatina,
  priceMissing,
  punchCannot,
  rivetHarderThanPlate,
  rivetInLeatherNeedsWasher,
  rivetTooLong,
  rivetTooShort,
  rivetTooThick,
  rivetTooThin,
  rivetsShort,
  rollAcrossSeam,
  rollOnSharpCurve,
  rollTooTight,
  roundOverHalf,
  rulesMissing,
  sealMissing,
  seamDoesNotMeet,
  seamLengthsDiffer,
  seamPiecesNotTouching,
  sectionWrong,
  sharpEdge,
  shearCannot,
  shrinkWillFold,
  sideUnsaid,
  signSpacing,
  slotNarrowerThanTool,
  slotTooShort,
  solvent,
  stackGap,
  strainNeedsAnneal,
  strainPastLimit,
  stripLongerThanSheet,
  swingBlocked,
  templateImpossible,
  textOpen,
  textureWillCurve,
  thicknessNotStocked,
  tooHeavy,
  tooLong,
  touchesHead,
  unfinishedPiece,
  unitMismatch,
  unitMissing,
  unknownName,
  unknownWord,
  useCircle,
  useMissing,
  versionUnknown,
  viewTooNarrow,
  visorJams,
  webTooThin,
  weldAfterPlatingOrPaint,
  wireShort,
  wireTooThickForGauge,
  workingHasNoRoom,
  zincFume,
];
