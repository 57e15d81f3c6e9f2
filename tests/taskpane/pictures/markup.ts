/** Reads what a picture was rendered to: enough of a look into static markup for these tests. */
import { createElement, type FunctionComponent } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';

export const render = <P extends object>(component: FunctionComponent<P>, props: P): string =>
  renderToStaticMarkup(createElement(component, props));

/** Values of an attribute in document order. */
export const attributes = (markup: string, name: string): string[] =>
  [...markup.matchAll(new RegExp(` ${name}="([^"]*)"`, 'g'))].map((m) => m[1]!);

/** Contents of the `<text>` elements: what is written into the drawing. */
export const drawnTexts = (markup: string): string[] =>
  [...markup.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map((m) => m[1]!);

/** Cells of the text twin, row by row, without the header row. */
export const tableRows = (markup: string): string[][] =>
  [...markup.matchAll(/<tr>(.*?)<\/tr>/g)]
    .map((row) => [...row[1]!.matchAll(/<t[hd][^>]*>(.*?)<\/t[hd]>/g)].map((cell) => cell[1]!))
    .slice(1);
