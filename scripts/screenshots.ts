/**
 * Photographs every page of the program, to be looked at: started on the demo in a store of its own, planned, with an entry
 * in its log and a message written.
 *
 *     npm run screenshots -- [--out DIR] [--only TEXT] [--chromium PATH]
 *
 * --out       folder, made anew (screenshots, which git leaves alone); index.html there shows all pictures
 * --only      pages whose path contains this text
 * --chromium  the browser (/usr/bin/chromium; Debian: apt-get install chromium)
 *
 * Views: the first screen at the desk (1280 × 800), the whole page there, on a phone (390 × 844), at night on a phone, and
 * as it is printed on A4. Exit code 1 where a page complains on its console or asks another host.
 */
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { contactSheet, type PictureOf } from './screenshots/contact-sheet.ts';
import { fillDemo, waitForPlan } from './screenshots/fill-demo.ts';
import { ERROR_PAGES, PAGES, pictureName } from './screenshots/pages.ts';
import { launched, shoot, watched } from './screenshots/shoot.ts';
import { startDemo } from './screenshots/start-demo.ts';

const { values } = parseArgs({
  options: {
    out: { type: 'string', default: resolve(import.meta.dirname, '../screenshots') },
    only: { type: 'string', default: '' },
    chromium: { type: 'string', default: '/usr/bin/chromium' },
  },
});

rmSync(values.out, { recursive: true, force: true });
mkdirSync(values.out, { recursive: true });
const demo = await startDemo();
const browser = await launched(values.chromium);
const complaints: string[] = [];
try {
  const page = await watched(browser, demo.url, (complaint) => void complaints.push(complaint));
  const pictures: PictureOf[] = [];
  const take = async (path: string, name: string): Promise<void> => {
    console.log(path);
    pictures.push({ path, files: await shoot(page, { url: demo.url, path, folder: values.out, name }) });
  };
  if ('planning'.includes(values.only)) await take('/', 'planning');
  await waitForPlan(page, demo.url);
  await fillDemo(page, demo.url);
  for (const shown of [...PAGES, ...ERROR_PAGES].filter(({ path }) => path.includes(values.only)))
    // One after the other: they share a page, and the pictures their order.
    // oxlint-disable-next-line no-await-in-loop
    await take(shown.path, pictureName(shown));
  writeFileSync(join(values.out, 'index.html'), contactSheet(pictures));
  console.log(`${pictures.length} pages: ${join(values.out, 'index.html')}`);
} finally {
  await browser.close();
  await demo.stop();
}
for (const complaint of complaints) console.error(complaint);
if (complaints.length > 0) process.exitCode = 1;
