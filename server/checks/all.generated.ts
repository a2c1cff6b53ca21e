// Made by .scripts/generate-checks.mjs from the files of this folder. Do not edit.
import { check as commaStray } from './comma-stray.ts';
import { check as countTooLarge } from './count-too-large.ts';
import { check as countersinkTooDeep } from './countersink-too-deep.ts';
import { check as definitionCircle } from './definition-circle.ts';
import { check as edgeTooFar } from './edge-too-far.ts';
import { check as edgeTooNear } from './edge-too-near.ts';
import { check as excuseUnclear } from './excuse-unclear.ts';
import { check as excuseUnused } from './excuse-unused.ts';
import { check as flushInThinPlate } from './flush-in-thin-plate.ts';
import { check as lineMissing } from './line-missing.ts';
import { check as lineOutsideSection } from './line-outside-section.ts';
import { check as lineTwice } from './line-twice.ts';
import { check as lineUnfinished } from './line-unfinished.ts';
import { check as markUnknown } from './mark-unknown.ts';
import { check as nameMissing } from './name-missing.ts';
import { check as nameReserved } from './name-reserved.ts';
import { check as nameTwice } from './name-twice.ts';
import { check as nameUnused } from './name-unused.ts';
import { check as nestedTooDeep } from './nested-too-deep.ts';
import { check as numberForm } from './number-form.ts';
import { check as numberImpossible } from './number-impossible.ts';
import { check as pitchTooClose } from './pitch-too-close.ts';
import { check as pitchTooWide } from './pitch-too-wide.ts';
import { check as rivetHarderThanPlate } from './rivet-harder-than-plate.ts';
import { check as rivetInLeatherNeedsWasher } from './rivet-in-leather-needs-washer.ts';
import { check as rivetTooLong } from './rivet-too-long.ts';
import { check as rivetTooShort } from './rivet-too-short.ts';
import { check as rivetTooThick } from './rivet-too-thick.ts';
import { check as rivetTooThin } from './rivet-too-thin.ts';
import { check as seamLengthsDiffer } from './seam-lengths-differ.ts';
import { check as sectionWrong } from './section-wrong.ts';
import { check as signSpacing } from './sign-spacing.ts';
import { check as textOpen } from './text-open.ts';
import { check as unitMismatch } from './unit-mismatch.ts';
import { check as unitMissing } from './unit-missing.ts';
import { check as unknownName } from './unknown-name.ts';
import { check as unknownWord } from './unknown-word.ts';
import { check as useCircle } from './use-circle.ts';
import { check as useMissing } from './use-missing.ts';
import { check as versionUnknown } from './version-unknown.ts';
import type { Check } from './check.ts';

export const checks: readonly Check[] = [
  commaStray,
  countTooLarge,
  countersinkTooDeep,
  definitionCircle,
  edgeTooFar,
  edgeTooNear,
  excuseUnclear,
  excuseUnused,
  flushInThinPlate,
  lineMissing,
  lineOutsideSection,
  lineTwice,
  lineUnfinished,
  markUnknown,
  nameMissing,
  nameReserved,
  nameTwice,
  nameUnused,
  nestedTooDeep,
  numberForm,
  numberImpossible,
  pitchTooClose,
  pitchTooWide,
  rivetHarderThanPlate,
  rivetInLeatherNeedsWasher,
  rivetTooLong,
  rivetTooShort,
  rivetTooThick,
  rivetTooThin,
  seamLengthsDiffer,
  sectionWrong,
  signSpacing,
  textOpen,
  unitMismatch,
  unitMissing,
  unknownName,
  unknownWord,
  useCircle,
  useMissing,
  versionUnknown,
];
