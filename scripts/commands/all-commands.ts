import type { Command, ListedCommand } from './command.ts';

/** In the order of the overall help. What a command needs is loaded when it runs: that takes a second for some. */
export const allCommands: readonly ListedCommand[] = [
  listed('plan', 'the joint plan of a passage, with its reasons', async () => (await import('./plan.ts')).planCommand),
  listed(
    'plan-many',
    'the plans of many passages, side by side, each written as a file',
    async () => (await import('./plan-many.ts')).planManyCommand,
  ),
  listed(
    'sheet',
    'the deck sheet of one job: the page that is taken on deck',
    async () => (await import('./sheet.ts')).sheetCommand,
  ),
  listed(
    'check',
    'judges a plan made by hand: what speaks against it, and how sure it is',
    async () => (await import('./check.ts')).checkCommand,
  ),
  listed('compare', 'what changed between two plans', async () => (await import('./compare.ts')).compareCommand),
  listed(
    'windows',
    'all start times of every job that stay inside its limits, and nearest misses',
    async () => (await import('./windows.ts')).windowsCommand,
  ),
  listed(
    'jobs',
    'the job library, chains, what else to do, readiness: list, show, copy, chain, propose, ready',
    async () => (await import('./jobs.ts')).jobsCommand,
  ),
  listed(
    'cut',
    'battens, tube or rod cut from the bars there are: a sheet to saw by',
    async () => (await import('./cut.ts')).cutCommand,
  ),
  listed(
    'damage',
    'where a sail is torn, by counting panels: reef or repair, rows and patch, a drawing',
    async () => (await import('./damage.ts')).damageCommand,
  ),
  listed(
    'locker',
    'what is on board, as text, table or JSON; a table read in its place',
    async () => (await import('./locker.ts')).lockerCommand,
  ),
  listed(
    'seam',
    'a tear sewn by hand: stitches, twine, hours, and the patch over it',
    async () => (await import('./seam.ts')).seamCommand,
  ),
  listed(
    'forecast',
    'what forecast files hold: list, values, at',
    async () => (await import('./forecast.ts')).forecastCommand,
  ),
  listed(
    'log',
    'what happened, written down: add, list, state, csv',
    async () => (await import('./log.ts')).logCommand,
  ),
  listed(
    'message',
    'plans, reports and weather as short texts, and back: write, read, key',
    async () => (await import('./message.ts')).messageCommand,
  ),
  listed(
    'access-key',
    'draws the key that pages ask for when other machines can reach them',
    async () => (await import('./access-key.ts')).accessKeyCommand,
  ),
  listed(
    'store',
    'what is kept, as one file and back, and looked through: backup, restore, check',
    async () => (await import('./store.ts')).storeCommand,
  ),
  listed(
    'passage',
    'a passage with all it needs as one file, and back on another machine: export, import',
    async () => (await import('./passage.ts')).passageCommand,
  ),
  listed(
    'alertness',
    'how awake after which sleeps: S, C, U, W, alertness, KSS per time',
    async () => (await import('./alertness.ts')).alertnessCommand,
  ),
];

function listed(name: string, summary: string, load: () => Promise<Command>): ListedCommand {
  return { name, summary, run: async (args, io) => (await load()).run(args, io) };
}
