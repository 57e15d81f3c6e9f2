/** Registration of the grid component's plugins. */
import type { Plugin, PluginCtor, Univer } from '@univerjs/core';
import { LexerTreeBuilder } from '@univerjs/engine-formula';

/** Plugins come bare or with their settings. */
export function registerPlugins(
  univer: Univer,
  plugins: readonly (PluginCtor<Plugin> | [PluginCtor<Plugin>, unknown])[],
): void {
  for (const plugin of plugins)
    if (Array.isArray(plugin))
      univer.registerPlugin(plugin[0], plugin[1] as ConstructorParameters<PluginCtor<Plugin>>[0]);
    else univer.registerPlugin(plugin);
}

/**
 * Mends the component's formula reader. It is reset before each formula, but forgets two of its states: a formula
 * read while still being typed (`=SUM(Keys[`) leaves it inside a square bracket, and every formula read afterwards
 * comes out as an error. Seen in 0.25.1, which is pinned; where the parts named here are missing, nothing is done.
 */
export function mendFormulaReader(univer: Univer): void {
  const reader = univer.__getInjector().get(LexerTreeBuilder) as unknown as {
    _resetTemp?: () => void;
    _tableBracketState?: boolean;
    _squareBracketState?: number;
  };
  const reset = reader._resetTemp;
  if (typeof reset !== 'function') return;
  reader._resetTemp = () => {
    reset.call(reader);
    reader._tableBracketState = false;
    reader._squareBracketState = 0;
  };
}
