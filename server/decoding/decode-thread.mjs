// Plain JavaScript, because a thread starts without the loader that reads TypeScript.
import { register } from 'tsx/esm/api';

register();
await import('./decode-thread.ts');
