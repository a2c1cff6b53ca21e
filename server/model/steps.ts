export * from '../incremental/steps.ts';
