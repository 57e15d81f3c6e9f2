/**
 * What the add-in's folder holds beside the bundle: the manifest with the base address put in, icons, the metadata
 * and the help pages, the licences of what is bundled among them.
 */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Plugin } from 'vite';
import { baseUrl, manifestFor } from './hostedManifest.ts';
import { functionsMetadata } from './functionsMetadata.ts';
import { functionHelp } from './functionHelp.ts';
import { licenceProblems, licencesPage, shippedPackages } from './licences.ts';
import { taskHelp } from './taskHelp.ts';

export function addinAssets(): Plugin {
  return {
    name: 'keyrow-addin-assets',
    apply: 'build',
    async generateBundle(_, bundle) {
      const emit = (fileName: string, source: string | Uint8Array): void => {
        this.emitFile({ type: 'asset', fileName, source });
      };
      const base = baseUrl();
      emit('manifest.xml', manifestFor(base));
      for (const icon of readdirSync('taskpane/icons'))
        if (icon.endsWith('.png')) emit(`icons/${icon}`, readFileSync(join('taskpane/icons', icon)));
      emit('functions.json', await functionsMetadata(base));
      for (const [path, html] of [...(await functionHelp()), ...taskHelp()]) emit(`help/${path}`, html);
      const chunks = Object.values(bundle).flatMap((file) => (file.type === 'chunk' ? file.moduleIds : []));
      const shipped = shippedPackages(chunks);
      const problems = licenceProblems(shipped);
      if (problems.length > 0) this.error(problems.join('\n'));
      emit('help/licences.html', licencesPage(shipped));
    },
  };
}
