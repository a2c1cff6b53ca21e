// Made by .scripts/generate-checks.ts from the files of this folder. Do not edit.
import { check as aluminiumWithSteelDust } from './aluminium-with-steel-dust.ts';
import { check as bendTooTight } from './bend-too-tight.ts';
import { check as bladeTooCoarse } from './blade-too-coarse.ts';
import { check as blankNeedsJoint } from './blank-needs-joint.ts';
import { check as blankOverSheet } from './blank-over-sheet.ts';
import { check as blankTooSmall } from './blank-too-small.ts';
import { check as cadmiumPlating } from './cadmium-plating.ts';
import { check as chromiumFume } from './chromium-fume.ts';
import { check as clearanceSmall } from './clearance-small.ts';
import { check as commaStray } from './comma-stray.ts';
import { check as countTooLarge } from './count-too-large.ts';
import { check as countersinkTooDeep } from './countersink-too-deep.ts';
import { check as crownTooThin } from './crown-too-thin.ts';
import { check as currencyMixed } from './currency-mixed.ts';
import { check as definitionCircle } from './definition-circle.ts';
import { check as domeImpossible } from './dome-impossible.ts';
import { check as domeTooDeepForGauge } from './dome-too-deep-for-gauge.ts';
import { check as drawingMissing } from './drawing-missing.ts';
import { check as drawingUnitUnsaid } from './drawing-unit-unsaid.ts';
import { check as drawingUnusable } from './drawing-unusable.ts';
import { check as dustAndNoise } from './dust-and-noise.ts';
import { check as dutyNotCertified } from './duty-not-certified.ts';
import { check as edgeAgainstSkin } from './edge-against-skin.ts';
import { check as edgeTooFar } from './edge-too-far.ts';
import { check as edgeTooNear } from './edge-too-near.ts';
import { check as excuseUnclear } from './excuse-unclear.ts';
import { check as excuseUnused } from './excuse-unused.ts';
import { check as finishedUnderRules } from './finished-under-rules.ts';
import { check as flareWillSplit } from './flare-will-split.ts';
import { check as flushInThinPlate } from './flush-in-thin-plate.ts';
import { check as fluteTooDeep } from './flute-too-deep.ts';
import { check as formImpossible } from './form-impossible.ts';
import { check as frontHeavy } from './front-heavy.ts';
import { check as galvanicPair } from './galvanic-pair.ts';
import { check as gaugeNotInTable } from './gauge-not-in-table.ts';
import { check as gaugeOddForMetal } from './gauge-odd-for-metal.ts';
import { check as gritJump } from './grit-jump.ts';
import { check as hardenNeedsCarbon } from './harden-needs-carbon.ts';
import { check as hardenedNotTempered } from './hardened-not-tempered.ts';
import { check as headDoesNotFit } from './head-does-not-fit.ts';
import { check as heatAfterFinish } from './heat-after-finish.ts';
import { check as heatAfterTemper } from './heat-after-temper.ts';
import { check as hemTooThick } from './hem-too-thick.ts';
import { check as hingeLinesCurved } from './hinge-lines-curved.ts';
import { check as holeDoesNotFitRivet } from './hole-does-not-fit-rivet.ts';
import { check as holeNearBend } from './hole-near-bend.ts';
import { check as holeNearEdge } from './hole-near-edge.ts';
import { check as holeSmallerThanThickness } from './hole-smaller-than-thickness.ts';
import { check as hotWork } from './hot-work.ts';
import { check as knucklesUneven } from './knuckles-uneven.ts';
import { check as leadSolder } from './lead-solder.ts';
import { check as leatherBeforeHeat } from './leather-before-heat.ts';
import { check as leatherWeightOdd } from './leather-weight-odd.ts';
import { check as letterLost } from './letter-lost.ts';
import { check as lineMissing } from './line-missing.ts';
import { check as lineOutsideSection } from './line-outside-section.ts';
import { check as lineTwice } from './line-twice.ts';
import { check as lineUnfinished } from './line-unfinished.ts';
import { check as markUnknown } from './mark-unknown.ts';
import { check as measureUnlikely } from './measure-unlikely.ts';
import { check as methodCannotReach } from './method-cannot-reach.ts';
import { check as nameMissing } from './name-missing.ts';
import { check as nameReserved } from './name-reserved.ts';
import { check as nameTwice } from './name-twice.ts';
import { check as nameUnused } from './name-unused.ts';
import { check as nestedTooDeep } from './nested-too-deep.ts';
import { check as noStockLeft } from './no-stock-left.ts';
import { check as numberForm } from './number-form.ts';
import { check as numberImpossible } from './number-impossible.ts';
import { check as openingBeforeForming } from './opening-before-forming.ts';
import { check as openingOverRules } from './opening-over-rules.ts';
import { check as orderCircle } from './order-circle.ts';
import { check as paintUnderPatina } from './paint-under-patina.ts';
import { check as patinaChemicals } from './patina-chemicals.ts';
import { check as pinDoesNotFit } from './pin-does-not-fit.ts';
import { check as pitchTooClose } from './pitch-too-close.ts';
import { check as pitchTooWide } from './pitch-too-wide.ts';
import { check as placeOffPiece } from './place-off-piece.ts';
import { check as polishAfterPatina } from './polish-after-patina.ts';
import { check as priceMissing } from './price-missing.ts';
import { check as punchCannot } from './punch-cannot.ts';
import { check as rivetHarderThanPlate } from './rivet-harder-than-plate.ts';
import { check as rivetInLeatherNeedsWasher } from './rivet-in-leather-needs-washer.ts';
import { check as rivetTooLong } from './rivet-too-long.ts';
import { check as rivetTooShort } from './rivet-too-short.ts';
import { check as rivetTooThick } from './rivet-too-thick.ts';
import { check as rivetTooThin } from './rivet-too-thin.ts';
import { check as rivetsShort } from './rivets-short.ts';
import { check as rollAcrossSeam } from './roll-across-seam.ts';
import { check as rollOnSharpCurve } from './roll-on-sharp-curve.ts';
import { check as rollTooTight } from './roll-too-tight.ts';
import { check as rulesMissing } from './rules-missing.ts';
import { check as sealMissing } from './seal-missing.ts';
import { check as seamLengthsDiffer } from './seam-lengths-differ.ts';
import { check as seamPiecesNotTouching } from './seam-pieces-not-touching.ts';
import { check as sectionWrong } from './section-wrong.ts';
import { check as sharpEdge } from './sharp-edge.ts';
import { check as shearCannot } from './shear-cannot.ts';
import { check as shrinkWillFold } from './shrink-will-fold.ts';
import { check as sideUnsaid } from './side-unsaid.ts';
import { check as signSpacing } from './sign-spacing.ts';
import { check as slotNarrowerThanTool } from './slot-narrower-than-tool.ts';
import { check as solvent } from './solvent.ts';
import { check as stackGap } from './stack-gap.ts';
import { check as strainNeedsAnneal } from './strain-needs-anneal.ts';
import { check as strainPastLimit } from './strain-past-limit.ts';
import { check as stripLongerThanSheet } from './strip-longer-than-sheet.ts';
import { check as templateImpossible } from './template-impossible.ts';
import { check as textOpen } from './text-open.ts';
import { check as textureWillCurve } from './texture-will-curve.ts';
import { check as thicknessNotStocked } from './thickness-not-stocked.ts';
import { check as tooHeavy } from './too-heavy.ts';
import { check as tooLong } from './too-long.ts';
import { check as unfinishedPiece } from './unfinished-piece.ts';
import { check as unitMismatch } from './unit-mismatch.ts';
import { check as unitMissing } from './unit-missing.ts';
import { check as unknownName } from './unknown-name.ts';
import { check as unknownWord } from './unknown-word.ts';
import { check as useCircle } from './use-circle.ts';
import { check as useMissing } from './use-missing.ts';
import { check as versionUnknown } from './version-unknown.ts';
import { check as viewTooNarrow } from './view-too-narrow.ts';
import { check as webTooThin } from './web-too-thin.ts';
import { check as weldAfterPlatingOrPaint } from './weld-after-plating-or-paint.ts';
import { check as wireShort } from './wire-short.ts';
import { check as wireTooThickForGauge } from './wire-too-thick-for-gauge.ts';
import { check as workingHasNoRoom } from './working-has-no-room.ts';
import { check as zincFume } from './zinc-fume.ts';
import type { Check } from './check.ts';

export const checks: readonly Check[] = [
  aluminiumWithSteelDust,
  bendTooTight,
  bladeTooCoarse,
  blankNeedsJoint,
  blankOverSheet,
  blankTooSmall,
  cadmiumPlating,
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
  hemTooThick,
  hingeLinesCurved,
  holeDoesNotFitRivet,
  holeNearBend,
  holeNearEdge,
  holeSmallerThanThickness,
  hotWork,
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
  numberForm,
  numberImpossible,
  openingBeforeForming,
  openingOverRules,
  orderCircle,
  paintUnderPatina,
  patinaChemicals,
  pinDoesNotFit,
  pitchTooClose,
  pitchTooWide,
  placeOffPiece,
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
  rulesMissing,
  sealMissing,
  seamLengthsDiffer,
  seamPiecesNotTouching,
  sectionWrong,
  sharpEdge,
  shearCannot,
  shrinkWillFold,
  sideUnsaid,
  signSpacing,
  slotNarrowerThanTool,
  solvent,
  stackGap,
  strainNeedsAnneal,
  strainPastLimit,
  stripLongerThanSheet,
  templateImpossible,
  textOpen,
  textureWillCurve,
  thicknessNotStocked,
  tooHeavy,
  tooLong,
  unfinishedPiece,
  unitMismatch,
  unitMissing,
  unknownName,
  unknownWord,
  useCircle,
  useMissing,
  versionUnknown,
  viewTooNarrow,
  webTooThin,
  weldAfterPlatingOrPaint,
  wireShort,
  wireTooThickForGauge,
  workingHasNoRoom,
  zincFume,
];
