/** The words of the help: one page for each task of the pane. Shown as static pages by `taskHelp.ts`. */
import { BOOK } from './taskHelpBook.ts';
import { CHECKING } from './taskHelpChecking.ts';
import { MAKING } from './taskHelpMaking.ts';
import type { TaskPage } from './taskHelpPage.ts';
import { PEOPLE } from './taskHelpPeople.ts';
import { SHOP } from './taskHelpShop.ts';

/** In the order of the start screen. */
export const TASK_PAGES: readonly TaskPage[] = [...MAKING, ...CHECKING, ...PEOPLE, ...SHOP, ...BOOK];
