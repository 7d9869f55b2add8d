// What a user does in the workbench, and what they see there.
import { expect } from "@playwright/test";

export const statusItem = '.statusbar-item[id="poise.poise.poise.status"]';

export function workbench(page) {
  const explorer = page.locator(".explorer-folders-view .monaco-list-row");
  const editor = page.locator(".editor-instance:visible .monaco-editor[data-uri]").first();
  const hover = page.locator(".monaco-hover:visible .hover-contents").first();
  // A text that stands in one line only: the lines of the page are in no order.
  const line = text => editor.locator(".view-line", { hasText: text }).first();
  const token = (word, within = editor) =>
    within
      .locator("span > span")
      .filter({ hasText: exactly(word) })
      .first();
  const tab = file => page.locator(".tab", { hasText: file });

  return {
    page,
    editor,
    hover,
    line,
    token,
    tab,
    /** What the editor shows while a folder is not trusted. */
    restricted: page.locator('.statusbar-item[id="status.workspaceTrust"]'),
    status: page.locator(statusItem),
    log: page.locator('[id="workbench.panel.output"]'),
    squiggles: kind => editor.locator(`.squiggly-${kind}`),
    /** Rows of the Problems panel, findings and the files they stand under. */
    problems: text => page.locator(".markers-panel .monaco-list-row", { hasText: text }),

    async ready() {
      await expect(explorer.first()).toBeVisible({ timeout: 60_000 });
    },
    async open(file) {
      await explorer.filter({ hasText: file }).first().dblclick();
      await expect(page.locator(".tab.active", { hasText: file })).toBeVisible();
      await expect(editor.locator(".view-line").first()).toBeVisible({ timeout: 30_000 });
    },
    async explorer() {
      // where it is shown already a click would hide it
      if (await explorer.first().isHidden())
        await page.locator('.activitybar .action-label[aria-label^="Explorer"]').click();
      await expect(explorer.first()).toBeVisible();
    },
    /** The weight budget; its icon is there once a spec is. */
    async budget() {
      await page.locator('.activitybar .action-label[aria-label^="Poise"]').click();
    },
    /** By the title that the palette shows. */
    async command(title) {
      const palette = page.locator(".quick-input-widget");
      const input = palette.locator("input.input");
      await page.keyboard.press("F1");
      await expect(input).toBeVisible();
      await input.fill(`>${title}`);
      await palette.locator(".monaco-list-row.focused", { hasText: title }).waitFor();
      await page.keyboard.press("Enter");
      // the command may ask something in the same place at once
      const left = async () =>
        (await palette.isHidden()) || !(await input.inputValue()).startsWith(">");
      await expect.poll(left).toBe(true);
    },
    async hoverOver(word) {
      await expect(async () => {
        const box = await token(word).boundingBox();
        // From elsewhere, or a pointer that already rests there wakes nothing.
        await page.mouse.move(box.x + 300, box.y + 250);
        await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2, { steps: 3 });
        await expect(hover).toBeVisible({ timeout: 3_000 });
      }).toPass({ timeout: 30_000 });
    },
    /**
     * Goes behind the word, where there are several in the line that holds a text, and types another key by
     * key. The figures that stand behind a line are no words of it.
     */
    async retype(was, now, row) {
      // a hover may hide the line below it
      await page.mouse.move(5, 5);
      await page.keyboard.press("Escape");
      await expect(hover).toHaveCount(0);
      const word = token(was, row === undefined ? editor : line(row));
      // figures above a line move it down when they come
      let box;
      let rested = 0;
      await expect(async () => {
        const now = await word.boundingBox();
        rested = now && box && now.x === box.x && now.y === box.y ? rested + 1 : 0;
        box = now;
        expect(rested).toBeGreaterThan(2);
      }).toPass({ intervals: [200] });
      await page.mouse.click(box.x + box.width - 1, box.y + box.height / 2);
      for (const _ of was) await page.keyboard.press("Backspace");
      await page.keyboard.type(now);
      await expect(line(now)).toBeVisible();
    },
    async undoUntil(text) {
      await expect(async () => {
        await page.keyboard.press("Control+z");
        await expect(line(text)).toBeVisible({ timeout: 200 });
      }).toPass();
    },
    async save(file) {
      await page.keyboard.press("Control+s");
      await expect(page.locator(".tab.dirty", { hasText: file })).toHaveCount(0);
    },
    async close(file) {
      await tab(file).click({ button: "middle" });
      await expect(tab(file)).toHaveCount(0);
    },
  };
}

function exactly(word) {
  return new RegExp(`^\\s*${word.replace(/[.*+?^${}()|[\]\\]/g, "\\$&")}\\s*$`);
}
