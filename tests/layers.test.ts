/** The arrows between the rooms, held for every import there is: static, dynamic, re-exported and type-only. */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

const ROOMS = ['src/keying', 'src/workbook', 'src/preview', 'src/build', 'functions', 'taskpane'] as const;
type Room = (typeof ROOMS)[number];

/** Rooms of ours that a room may import from, besides itself. */
const ARROWS: Record<Room, readonly Room[]> = {
  'src/keying': [],
  functions: ['src/keying'],
  'src/workbook': ['src/keying'],
  taskpane: ['src/workbook', 'src/keying'],
  'src/preview': [],
  'src/build': ['src/keying', 'src/workbook', 'src/preview'],
};

/** Packages that a room may use; undefined = any that is installed. */
const PACKAGES: Record<Room, readonly RegExp[] | undefined> = {
  'src/keying': [],
  functions: [],
  'src/workbook': [/^zod$/],
  taskpane: [/^react(-dom)?(\/|$)/, /^@fluentui\/react-(components|icons)$/],
  'src/preview': undefined,
  'src/build': undefined,
};

/** The preview's composition: the second entry, which never ships, may also see the stand-in. */
const COMPOSITION = /^taskpane\/preview(\.tsx$|\/)/;

const files = ROOMS.flatMap((room) => sourcesUnder(room).map((file) => ({ room, file })));

function sourcesUnder(folder: string): string[] {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    if (statSync(path).isDirectory()) return sourcesUnder(path);
    return /\.tsx?$/.test(name) ? [path] : [];
  });
}

function roomOf(path: string): Room | undefined {
  return ROOMS.find((room) => path === room || path.startsWith(room + '/'));
}

function wrongImports(room: Room, file: string): string[] {
  const composition = COMPOSITION.test(file);
  const found = ts.preProcessFile(readFileSync(file, 'utf8'), true, true).importedFiles;
  return found.flatMap(({ fileName }) => {
    if (!fileName.startsWith('.')) {
      const allowed = PACKAGES[room];
      return !allowed || composition || allowed.some((p) => p.test(fileName))
        ? []
        : [`${file} → ${fileName}`];
    }
    const target = roomOf(normalize(join(dirname(file), fileName)));
    const allowed = target === room || (target && ARROWS[room].includes(target));
    return allowed || (composition && target === 'src/preview') ? [] : [`${file} → ${fileName}`];
  });
}

describe('the rooms', () => {
  it('finds the sources that it is to hold', () => {
    for (const room of ROOMS) expect(files.filter((f) => f.room === room).length, room).toBeGreaterThan(0);
  });

  it.each(ROOMS)('%s imports only what its arrows allow', (room) => {
    expect(files.filter((f) => f.room === room).flatMap((f) => wrongImports(room, f.file))).toEqual([]);
  });

  it('keeps Excel.* in the workbook room', () => {
    const elsewhere = files
      .filter((f) => !['src/workbook', 'src/preview', 'src/build'].includes(f.room))
      .filter((f) =>
        /\bExcel\s*\.\s*(run|RequestContext|createWorkbook)\b/.test(readFileSync(f.file, 'utf8')),
      );
    expect(elsewhere.map((f) => f.file)).toEqual([]);
  });

  it('lets no request to Excel go unwatched', () => {
    // taking a handler away needs the context that it was added in
    const unwatched = /\bExcel\.run\((?!handle\.context)/;
    const found = files.filter(
      (f) => f.room === 'src/workbook' && unwatched.test(readFileSync(f.file, 'utf8')),
    );
    expect(found.map((f) => f.file)).toEqual(['src/workbook/excelRun.ts']);
  });

  it('lets only the applying of plans write to the workbook', () => {
    const writes = /\.(values|formulas|numberFormat)\s*=[^=>]|\.tables\.add\(|\.worksheets\.add\(|\.resize\(/;
    const writers = files.filter(
      (f) => f.room === 'src/workbook' && writes.test(readFileSync(f.file, 'utf8')),
    );
    expect(writers.map((f) => f.file).filter((f) => !/^src\/workbook\/(apply|takeBack)/.test(f))).toEqual([]);
  });
});
