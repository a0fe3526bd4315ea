/** The bench by the keyboard alone: every control is come to by Tab, a choice by the arrows, as a person without a mouse does. */
import type { Locator, Page } from 'playwright-core';
import { type Hand, type Pause, waiting } from './bench-player.ts';

/** Tabs after which a control counts as out of reach. */
const FARTHEST = 150;

/** Which way a control lies from the focus; 'here' when it has it. */
type Way = 'here' | 'on' | 'back';

const wayTo = (control: Locator): Promise<Way> =>
  control.evaluate((wanted): 'here' | 'on' | 'back' => {
    const at = document.activeElement;
    if (at === wanted) return 'here';
    const before = at !== null && at !== document.body && at.compareDocumentPosition(wanted) & 2;
    return before ? 'back' : 'on';
  });

async function tabTo(page: Page, control: Locator): Promise<void> {
  for (let tabs = 0; tabs <= FARTHEST; tabs++) {
    const way = await wayTo(control);
    if (way === 'here') return;
    await page.keyboard.press(way === 'back' ? 'Shift+Tab' : 'Tab');
  }
  throw new Error(`no Tab comes to ${await control.evaluate((found) => found.outerHTML.slice(0, 200))}`);
}

/** Goes to the group by Tab and through it by the arrows; these choose as they go. */
async function arrowTo(page: Page, radio: Locator): Promise<void> {
  const group = radio.locator('xpath=ancestor::*[@role="radiogroup"]');
  const inOrder = group.locator('[role=radio][tabindex="0"]');
  if ((await inOrder.count()) !== 1) throw new Error('a group of choices must be one stop of Tab');
  await tabTo(page, inOrder);
  const choices = await group.getByRole('radio').count();
  for (let arrows = 0; arrows <= choices; arrows++) {
    if ((await wayTo(radio)) === 'here') return;
    await page.keyboard.press('ArrowRight');
  }
  throw new Error(`no arrow comes to ${await radio.textContent()}`);
}

/** Keys only. A control that Tab or the arrows do not come to is an error. */
export function keys(page: Page, pause: Pause = waiting(page)): Hand {
  return {
    press: async (control) => {
      await pause(280);
      if ((await control.getAttribute('role')) === 'radio') await arrowTo(page, control);
      else await tabTo(page, control);
      await page.keyboard.press('Enter');
    },
    type: async (field, text) => {
      await tabTo(page, field);
      await page.keyboard.press('ControlOrMeta+A');
      if (text === '') await page.keyboard.press('Delete');
      else await page.keyboard.type(text);
    },
  };
}
