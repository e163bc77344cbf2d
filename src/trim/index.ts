/** Trim: strips laid over seams, their lengths and ends. */
export * from './trimRun';
