/** What counts as time: of the wall, or of the processor, which other work on the machine does not lengthen. */
export type Clock = () => number;

export const wallMs: Clock = () => performance.now();

/** Time the process has had of all processors, its own compiler and collector included. */
export const processorMs: Clock = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};
