/** The messages in a browser: by day and at night, on a phone, on paper, and with script off. */
import { beforeAll, describe, expect, it } from 'vitest';
import { testServer } from '../pages/test-server.ts';
import { referenceTool } from '../reference-tools.ts';
import { browserOfFile, openPage, type Watched } from './browser.ts';
import { servedPages } from './served-pages.ts';
import { axeViolations, overflowPx } from './page-checks.ts';

const chromium = referenceTool('chromium');
const launch = browserOfFile(chromium);
const KEY = new TextEncoder().encode('an invented key of many letters');

describe.skipIf(chromium === null)('messages in a browser', () => {
  const at = servedPages(launch, () => testServer(undefined, undefined, KEY));
  beforeAll(() => write(at.browser, 'plan', 'sms'));

  /** Written with the form, as a reader does; its page is shown. */
  async function write({ page }: Watched, kind: string, length: string): Promise<void> {
    await page.goto(`${at.server.url}/messages`);
    await page.check(`input[name=kind][value=${kind}]`);
    await page.check(`input[name=length][value=${length}]`);
    await page.fill('input[name=sender]', 'SH');
    await page.click('text="Write it"');
    await page.locator('#part-1').waitFor();
  }

  /** The parts of a page, one a line, as they would be copied. */
  const partsOn = async ({ page }: Watched): Promise<string> => {
    const areas = await page.locator('textarea[id^=part-]').all();
    return (await Promise.all(areas.map((area) => area.inputValue()))).join('\n');
  };

  it('the form: shows what belongs to the kind that is chosen, and nothing else', async () => {
    const page = await at.open('/messages');
    const isShown = (name: string): Promise<boolean> => page.locator(`[name=${name}]`).isVisible();
    for (const [kind, shown] of [
      ['plan', ['detail', 'note']],
      ['digest', ['hours', 'parts']],
      ['report', ['observations', 'note']],
    ] as const) {
      await page.check(`input[name=kind][value=${kind}]`);
      for (const name of ['detail', 'hours', 'parts', 'observations', 'note', 'limit'])
        expect(await isShown(name), `${kind}: ${name}`).toBe(shown.some((one) => one === name));
    }
    await page.check('input[name=length][value=other]');
    expect(await isShown('limit')).toBe(true);
  });

  it('what is found has the headings of its place, and passes axe', async () => {
    await write(at.browser, 'digest', 'satellite');
    const digest = await partsOn(at.browser);
    const page = await at.open('/messages/1');
    const plan = await partsOn(at.browser);
    await page.goto(`${at.server.url}/messages`);
    await page.fill('#read-text', `${digest}\n${plan.split('\n').slice(1).join('\n')}\nSL;P.SH.9.1-1;x;ABCDEFG#`);
    await page.click('text="Read it"');
    await page.locator('.message-one').first().waitFor();
    expect(await page.locator('.message-one').count()).toBe(3);
    expect(await axeViolations(page)).toEqual([]);
    // One filled button on a page.
    expect(await page.locator('.main-button').allInnerTexts()).toEqual(['Plan with this digest']);
  });

  it('while words are written: how much it would fill is counted, and longer with more of them', async () => {
    const page = await at.open('/messages');
    const counted = page.locator('#message-count p').first();
    const unitsOf = async (): Promise<number> => Number(/, (\d+) in all/.exec(await counted.innerText())?.[1]);
    await page.check('input[name=kind][value=plan]');
    await page.fill('#write-note', 'All well');
    await counted.waitFor();
    const before = await unitsOf();
    await page.fill('#write-note', 'All well, and the sail is mended');
    await expect.poll(unitsOf).toBeGreaterThan(before + 20);
    expect(await axeViolations(page)).toEqual([]);
  });

  it.each([['with a clipboard'], ['without one, as over a plain address of the boat’s network']])(
    'copying %s: one part, then all of them a line each, as they are pasted',
    async (how) => {
      const copying = await openPage(await launch(), { ownUrl: at.server.url });
      const { page } = copying;
      if (how !== 'with a clipboard')
        await page.addInitScript('Object.defineProperty(navigator, "clipboard", { value: undefined })');
      await page.goto(`${at.server.url}/messages/1`);
      const text = await partsOn(copying);
      const pasted = async (button: string): Promise<string> => {
        await page.goto(`${at.server.url}/messages/1`);
        await page.click(button);
        await page.locator('.message-copy >> text=Copied.').first().waitFor();
        await page.goto(`${at.server.url}/messages`);
        await page.focus('#read-text');
        await page.keyboard.press('Control+V');
        return page.inputValue('#read-text');
      };
      expect(await pasted('button[data-copy="part-2"]')).toBe(text.split('\n')[1]);
      expect(await pasted('button[data-copy^="part-1 part-2"]')).toBe(text);
      expect(copying.complaints).toEqual([]);
      await copying.close();
    },
  );

  it('on paper: the message whole, without forms and navigation; the key on a sheet', async () => {
    const page = await at.open('/messages/1', 720);
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('nav').first().isVisible()).toBe(false);
    for (const area of await page.locator('textarea').all()) {
      expect(
        await area.evaluate((node) => {
          const { scrollHeight, clientHeight } = node as unknown as { scrollHeight: number; clientHeight: number };
          return scrollHeight - clientHeight;
        }),
      ).toBeLessThanOrEqual(1);
    }
    await page.goto(`${at.server.url}/messages/key`);
    expect(await overflowPx(page)).toBe(0);
    await page.goto(`${at.server.url}/messages`);
    expect(await page.locator('form').first().isVisible()).toBe(false);
    expect(await page.locator('.message-list li').first().isVisible()).toBe(true);
  });

  it('script off: written, read and taken over', async () => {
    const off = await openPage(await launch(), { ownUrl: at.server.url, javaScriptEnabled: false });
    await write(off, 'plan', 'satellite');
    const text = await partsOn(off);
    await off.page.goto(`${at.server.url}/messages`);
    await off.page.fill('#read-text', `Good morning,\n> ${text.replaceAll('\n', '\n> ')}`);
    await off.page.click('text="Read it"');
    await off.page.click('text="Keep it in the list"');
    expect(await off.page.locator('.notice.message').innerText()).toContain('It is kept as message');
    expect(off.complaints).toEqual([]);
    await off.close();
  });

  it('nothing was asked of anybody else, and nothing was complained of', () => {
    expect(at.browser.complaints).toEqual([]);
  });
});
