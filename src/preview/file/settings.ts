/**
 * The add-in's document settings in a file. Excel keeps them in its own part for add-ins, tied to the store the
 * add-in came from; here they go into a custom XML part, which Excel carries along unread.
 */
import { childrenOf, escapeXml, parseXml } from './xml.ts';

const NAMESPACE = 'urn:keyrow:preview:settings';

/** How the book lists its settings part; the model never sees it among the add-in's own XML parts. */
export const SETTINGS_ID = 'settings';

/** The custom XML part that holds settings, by its content. */
export function isSettingsPart(xml: string): boolean {
  return xml.includes(`xmlns="${NAMESPACE}"`);
}

export function readSettings(parts: ReadonlyMap<string, { readonly xml: string }>): Map<string, string> {
  const settings = new Map<string, string>();
  for (const { xml } of parts.values()) {
    if (!isSettingsPart(xml)) continue;
    for (const node of childrenOf(parseXml(xml, 'customXml'), 'setting')) {
      const key = node.attributes['key'];
      if (key !== undefined) settings.set(key, node.text);
    }
  }
  return settings;
}

export function settingsXml(settings: ReadonlyMap<string, string>): string {
  const items = [...settings].map(
    ([key, json]) => `<setting key="${escapeXml(key)}">${escapeXml(json)}</setting>`,
  );
  return `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<settings xmlns="${NAMESPACE}">${items.join('')}</settings>`;
}
