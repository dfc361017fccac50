/** Takes the server lock of the folder given, says so, and keeps it until killed. */
import { takeServerLock } from '../../server/stores/index.ts';

const taken = takeServerLock(process.argv[2] ?? '');
console.log(taken.ok ? 'taken' : taken.problems.map((problem) => problem.code).join(' '));
if (taken.ok) setInterval(() => undefined, 1_000);
