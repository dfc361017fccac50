import type { ForecastFile } from '../../lib/forecast/index.ts';

/** What a command may touch of the world. */
export interface CommandIo {
  /** Writes to standard output, without adding a line end. */
  out(text: string): void;
  /** Writes to standard error, without adding a line end. */
  err(text: string): void;
  readFile(path: string): Promise<Uint8Array>;
  /** A forecast file that may be too long to hold; absent: every file is held. */
  openForecast?(path: string): Promise<ForecastFile>;
  nowEpochMs(): number;
}

/** One command of `slatch`; `run` resolves to the exit code: 0 done, 1 problem in the input, 2 wrong use. */
export interface Command {
  name: string;
  run(args: readonly string[], io: CommandIo): Promise<number>;
}

/** A command in the overall help. */
export interface ListedCommand extends Command {
  summary: string;
}
