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

/**
 * The modules of the web worker, which is a bundle of its own: to the add-in's it is one file without modules. It is
 * whole before the add-in's bundle is.
 */
export class WorkerModules {
  readonly ids = new Set<string>();

  /** For `worker.plugins`. */
  plugin(): Plugin {
    return {
      name: 'keyrow-worker-modules',
      generateBundle: (_, bundle) => {
        for (const id of modulesOf(bundle)) this.ids.add(id);
      },
    };
  }
}

type Bundle = Parameters<Extract<Plugin['generateBundle'], (...given: never[]) => unknown>>[1];

const modulesOf = (bundle: Bundle): string[] =>
  Object.values(bundle).flatMap((file) => (file.type === 'chunk' ? file.moduleIds : []));

export function addinAssets(worker: WorkerModules): Plugin {
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
      // without them the worker's licences would go unread, so that it is no build
      if (worker.ids.size === 0) this.error('The modules of the web worker are not known.');
      const shipped = shippedPackages([...modulesOf(bundle), ...worker.ids]);
      const problems = licenceProblems(shipped);
      if (problems.length > 0) this.error(problems.join('\n'));
      emit('help/licences.html', licencesPage(shipped));
    },
  };
}
