/**
 * A drawing of ours → PNG. It is laid out once more, wide and in the light theme, since a sheet is paper; its styles
 * are written into it, and an image element paints it on a canvas. Nothing leaves the page: the address is a `data:`
 * one, and what isn't in the drawing itself is not loaded.
 */
import { FluentProvider, webLightTheme } from '@fluentui/react-components';
import type { ReactNode } from 'react';
import { flushSync } from 'react-dom';
import { createRoot } from 'react-dom/client';

export interface Png {
  readonly base64: string;
  readonly width: number;
  readonly height: number;
}

const WIDTH = 540;
/** Blank paper around the drawing. */
const EDGE = 10;
/** Pixels of the picture for one of the drawing, so that it prints sharply. */
const SCALE = 3;

/** Throws where the browser won't draw it. */
export async function drawPng(drawing: (width: number) => ReactNode): Promise<Png> {
  const place = document.createElement('div');
  place.ariaHidden = 'true';
  // in a contrast theme the pens take the system's colours, and so does the ground
  place.style.cssText = `position:fixed;left:-10000px;top:0;width:${WIDTH}px;background:${contrast() ? 'Canvas' : '#fff'}`;
  document.body.append(place);
  const root = createRoot(place);
  try {
    flushSync(() => root.render(<FluentProvider theme={webLightTheme}>{drawing(WIDTH)}</FluentProvider>));
    const svg = place.querySelector('svg');
    if (!svg) throw new Error('nothing was drawn');
    const size = {
      width: Number(svg.getAttribute('width')) + 2 * EDGE,
      height: Number(svg.getAttribute('height')) + 2 * EDGE,
    };
    const text = standalone(svg, size);
    return { ...size, base64: await paint(text, size, getComputedStyle(place).backgroundColor) };
  } finally {
    root.unmount();
    place.remove();
  }
}

const contrast = (): boolean => window.matchMedia('(forced-colors: active)').matches;

/** What a stylesheet may have said about a shape or a text. */
const STYLES = [
  'fill',
  'stroke',
  'stroke-width',
  'stroke-dasharray',
  'stroke-linejoin',
  'paint-order',
  'font-family',
  'font-size',
  'font-weight',
  'font-variant-numeric',
] as const;

/** The drawing as a document of its own. */
function standalone(svg: SVGSVGElement, { width, height }: Pick<Png, 'width' | 'height'>): string {
  const copy = svg.cloneNode(true) as SVGSVGElement;
  const originals = svg.querySelectorAll<SVGElement>('*');
  copy.querySelectorAll<SVGElement>('*').forEach((element, i) => {
    const style = getComputedStyle(originals[i]!);
    element.removeAttribute('class');
    for (const name of STYLES) element.style.setProperty(name, style.getPropertyValue(name));
  });
  copy.setAttribute('xmlns', 'http://www.w3.org/2000/svg');
  copy.setAttribute('viewBox', `${-EDGE} ${-EDGE} ${width} ${height}`);
  copy.setAttribute('width', String(width));
  copy.setAttribute('height', String(height));
  return new XMLSerializer().serializeToString(copy);
}

/** Base64 of the PNG. */
async function paint(
  svg: string,
  { width, height }: Pick<Png, 'width' | 'height'>,
  ground: string,
): Promise<string> {
  const image = new Image(width * SCALE, height * SCALE);
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`;
  await image.decode();
  const canvas = document.createElement('canvas');
  canvas.width = width * SCALE;
  canvas.height = height * SCALE;
  const pen = canvas.getContext('2d');
  if (!pen) throw new Error('no canvas');
  pen.fillStyle = ground;
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.drawImage(image, 0, 0, canvas.width, canvas.height);
  return canvas.toDataURL('image/png').replace(/^data:[^,]*,/, '');
}
