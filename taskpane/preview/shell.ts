/**
 * Runs first in the add-in's page when the preview serves it: asks the preview around it to play Excel. Excel itself
 * never loads this file.
 */
import type { PreviewWindow } from './window.ts';

const { keyrowPreview } = window.parent as PreviewWindow;
if (keyrowPreview) keyrowPreview.installShell(window);
