/** Registration of the grid component's plugins. */
import type { Plugin, PluginCtor, Univer } from '@univerjs/core';

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
