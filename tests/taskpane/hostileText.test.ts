/** HTML in cells stays text in the pane: what comes from a sheet is escaped wherever it is shown. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { TextTable } from '../../taskpane/pictures/TextTable.tsx';
import { Notice } from '../../taskpane/shared/Notice.tsx';
import { render } from './pictures/markup.ts';

const HTML = '<img src=x onerror="alert(1)"><script>alert(2)</script>';
const SHOWN = '&lt;img src=x onerror=&quot;alert(1)&quot;&gt;&lt;script&gt;alert(2)&lt;/script&gt;';

describe('HTML in cells', () => {
  it('is text in a table and in a notice', () => {
    for (const markup of [
      render(TextTable, { caption: HTML, columns: [HTML], rows: [[HTML]] }),
      render(Notice, { kind: 'warning', children: HTML }),
    ]) {
      expect(markup).toContain(SHOWN);
      expect(markup).not.toMatch(/<img|<script/);
    }
  });

  it('has no way round: nothing in the pane sets HTML or opens an address from a cell', () => {
    const files = readdirSync('taskpane', { recursive: true, encoding: 'utf8' }).filter((f) =>
      /\.tsx?$/.test(f),
    );
    expect(files.length).toBeGreaterThan(50);
    for (const file of files)
      expect(readFileSync(join('taskpane', file), 'utf8'), file).not.toMatch(
        /dangerouslySetInnerHTML|\.innerHTML|\.outerHTML|insertAdjacentHTML|document\.write|createContextualFragment/,
      );
  });
});
