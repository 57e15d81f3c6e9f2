/**
 * Where the built add-in will be served, said once, and the manifest for that place. Nothing else of the add-in holds
 * an address of its own: its pages ask for their files by relative paths.
 */
import { readFileSync } from 'node:fs';

export const DEVELOPMENT_BASE = 'https://localhost:3000';

/** What package.json says of it. */
interface PackageJson {
  readonly config?: { readonly base?: string };
}

const packageJson = (): PackageJson => JSON.parse(readFileSync('package.json', 'utf8')) as PackageJson;

/**
 * The base address of the host, without a trailing slash: `KEYROW_BASE_URL`, else `config.base` of package.json (set
 * once with `npm pkg set config.base=https://…`), else the development one. Throws where it can't be served from.
 */
export function baseUrl(
  env: Readonly<Record<string, string | undefined>> = process.env,
  settings: PackageJson = packageJson(),
): string {
  const said = [env['KEYROW_BASE_URL'], settings.config?.base].find((text) => text?.trim());
  return checkedBase(said ?? DEVELOPMENT_BASE);
}

/** @example checkedBase(' https://your.host/keyrow/ ') → 'https://your.host/keyrow' */
function checkedBase(text: string): string {
  const base = text.trim().replace(/\/+$/, '');
  if (!/^https:\/\/[^\s"'<>&?#]+$/.test(base) || !URL.canParse(base))
    throw new Error(
      `The base address must be an https address without “?” and “#”, such as https://your.host/keyrow, not ${text}. Excel loads add-ins over https only.`,
    );
  return base;
}

/** `manifest.xml` with every address moved to the host; ids, version and the rest stay. */
export function manifestFor(base: string, source = readFileSync('manifest.xml', 'utf8')): string {
  const checked = checkedBase(base);
  return source
    .replace(/\s*<!-- The base address[^>]*-->/, '')
    .replaceAll(
      `<AppDomain>${DEVELOPMENT_BASE}</AppDomain>`,
      `<AppDomain>${new URL(checked).origin}</AppDomain>`,
    )
    .replaceAll(DEVELOPMENT_BASE, checked);
}
