export * from '../incremental/memo.ts';
