/** Takes a store as the server does, says so as the server does, and keeps it until killed. */
import { openServerStore } from '../../server/open-server-store.ts';

const opened = openServerStore(process.argv[2] ?? '');
if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
const address = `http://127.0.0.1:${process.pid}/`;
opened.value.note(`${address}, process ${process.pid}`);
console.log(`Slatch: ${address}`);
setInterval(() => undefined, 1000);
