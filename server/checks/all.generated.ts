// Made by .scripts/generate-checks.mjs from the files of this folder. Do not edit.
import { check as rivetTooShort } from './rivet-too-short.ts';
import type { Check } from './check.ts';

export const checks: readonly Check[] = [
  rivetTooShort,
];
