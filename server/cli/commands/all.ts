import type { Command } from '../support/command.ts';
import { assembly } from './assembly.ts';
import { check } from './check.ts';
import { draw } from './draw.ts';
import { explain } from './explain.ts';
import { exportCommands } from './exports.ts';
import { format } from './format.ts';
import { create } from './new.ts';
import { serve } from './serve.ts';

/** In the order of the help. */
export const commands: readonly Command[] = [check, explain, ...exportCommands, draw, assembly, format, create, serve];
