/**
 * Parts that the model does not hold but that point at cells: comments, drawings, charts, pivot sources, and the
 * corners of a sheet's own part that are only passed through. They follow inserted and deleted lines here.
 */
import { mapReferences, renameSheetIn } from '../model/references.ts';
import { shiftArea, shiftIndex, type Shift } from '../model/shift.ts';
import { parseArea } from '../model/address.ts';
import type { Area } from '../model/types.ts';
import { areaRef, areasRef, parseAreas } from './refs.ts';
import { decodeText, escapeXml } from './xml.ts';

function moveArea(area: Area, shifts: readonly Shift[]): Area | null {
  let moved: Area | null = area;
  for (const shift of shifts) moved = moved === null ? null : shiftArea(moved, shift);
  return moved;
}

function moveList(list: string, shifts: readonly Shift[]): string {
  return areasRef(parseAreas(list).flatMap((area) => moveArea(area, shifts) ?? []));
}

/** Comments of either kind: those on deleted cells go. */
export function shiftComments(xml: string, shifts: readonly Shift[]): string {
  return xml.replace(
    /<(comment|threadedComment)\b([^>]*?)\bref="([^"]*)"([\s\S]*?)<\/\1>/g,
    (whole, name: string, head: string, ref: string, rest: string) => {
      const area = parseArea(ref);
      if (area === null) return whole;
      const moved = moveArea(area, shifts);
      return moved === null ? '' : `<${name}${head}ref="${areaRef(moved)}"${rest}</${name}>`;
    },
  );
}

function moveLine(index: number, axis: Shift['axis'], shifts: readonly Shift[]): number | null {
  let moved: number | null = index;
  for (const shift of shifts)
    if (moved !== null && shift.axis === axis && shift.lane === undefined) moved = shiftIndex(moved, shift);
  return moved;
}

/** Anchors of pictures and charts; on a deleted line they stay at its place. */
export function shiftDrawing(xml: string, shifts: readonly Shift[]): string {
  const move =
    (axis: Shift['axis']) =>
    (whole: string, tag: string, number: string): string => {
      const moved = moveLine(Number(number), axis, shifts);
      return moved === null ? whole : `<${tag}>${String(moved)}</${tag}>`;
    };
  return xml
    .replace(/<((?:\w+:)?row)>(\d+)<\/\1>/g, move('rows'))
    .replace(/<((?:\w+:)?col)>(\d+)<\/\1>/g, move('columns'));
}

/** The old drawing language that says where comment boxes belong. */
export function shiftLegacyDrawing(xml: string, shifts: readonly Shift[]): string {
  const move =
    (axis: Shift['axis']) =>
    (whole: string, tag: string, number: string): string => {
      const moved = moveLine(Number(number), axis, shifts);
      return moved === null ? whole : `<${tag}>${String(moved)}</${tag}>`;
    };
  return xml
    .replace(/<(x:Row)>(\d+)<\/\1>/g, move('rows'))
    .replace(/<(x:Column)>(\d+)<\/\1>/g, move('columns'));
}

/** What a sheet's part says beside the model's own elements. */
export function shiftPassedThrough(name: string, xml: string, shifts: readonly Shift[]): string {
  if (name === 'protectedRanges' || name === 'ignoredErrors' || name === 'scenarios')
    return xml.replace(/\bsqref="([^"]*)"/g, (_, list: string) => `sqref="${moveList(list, shifts)}"`);
  if (name === 'extLst')
    return xml.replace(
      /<((?:\w+:)?sqref)>([^<]*)<\/\1>/g,
      (_, tag: string, list: string) => `<${tag}>${moveList(list, shifts)}</${tag}>`,
    );
  return xml;
}

/** How references to one sheet change: lines that came and went, and a new name. */
export interface SheetMove {
  readonly name: string;
  readonly newName: string | null;
  readonly shifts: readonly Shift[];
}

/** A formula that stands outside the model, brought up to date. Names are the ones at the time of opening. */
export function followFormula(formula: string, moves: readonly SheetMove[]): string {
  const moved = mapReferences(formula, (sheet, area) => {
    const move = moves.find((own) => own.name.toLowerCase() === sheet?.toLowerCase());
    if (move === undefined || move.shifts.length === 0) return area;
    return moveArea(area, move.shifts);
  });
  return moves.reduce(
    (text, move) => (move.newName === move.name ? text : renameSheetIn(text, move.name, move.newName)),
    moved,
  );
}

/** A chart's references to cells. */
export function followChart(xml: string, moves: readonly SheetMove[]): string {
  return xml.replace(/<((?:\w+:)?f)>([^<]*)<\/\1>/g, (_, tag: string, formula: string) => {
    return `<${tag}>${escapeXml(followFormula(decodeText(formula), moves))}</${tag}>`;
  });
}

/** A pivot table's source range. */
export function followPivotSource(xml: string, moves: readonly SheetMove[]): string {
  return xml.replace(/<worksheetSource\b[^>]*>/g, (tag) => {
    const sheet = decodeText(/\bsheet="([^"]*)"/.exec(tag)?.[1] ?? '');
    const move = moves.find((own) => own.name === sheet);
    if (move === undefined) return tag;
    const renamed =
      move.newName === null ? tag : tag.replace(/\bsheet="[^"]*"/, `sheet="${escapeXml(move.newName)}"`);
    return renamed.replace(/\bref="([^"]*)"/, (whole, ref: string) => {
      const area = parseArea(ref);
      const moved = area === null ? null : moveArea(area, move.shifts);
      return moved === null ? whole : `ref="${areaRef(moved)}"`;
    });
  });
}
