/** What the add-in does, what it leaves to the person, and the cautions of the trade in one place. */
import { Link } from '@fluentui/react-components';
import { Notice } from '../shared/Notice.tsx';
import { cautionText, type CautionAbout } from '../shared/Caution.tsx';
import { Screen } from '../shared/Screen.tsx';

const CAUTIONS: readonly { readonly about: CautionAbout; readonly heading: string }[] = [
  { about: 'secret', heading: 'Bittings are secrets' },
  { about: 'protection', heading: 'What protection of a sheet is worth' },
  { about: 'first-original', heading: 'Before you duplicate' },
  { about: 'exit-doors', heading: 'Exit, fire and accessible doors' },
  { about: 'master-keyed', heading: 'What master keying costs' },
];

export function AboutScreen() {
  return (
    <Screen title="About and cautions">
      <p>
        Keyrow works out keying for pin tumbler cylinders with one row of pins: cuts, checks, master-key
        systems, grids and pin stacks. Everything it makes stands in this workbook, in tables that anyone can
        read without it.
      </p>
      <p>
        Nothing leaves this computer: no account, no network calls of its own, no telemetry. It writes only
        what a plan has shown, and takes back its last write.
      </p>
      <p>
        <Link href="help/index.html" target="_blank" rel="noopener">
          Help: a page for each task, the worksheet functions, the trade’s words, licences
        </Link>
      </p>
      {CAUTIONS.map(({ about, heading }) => (
        <section key={about}>
          <h2>{heading}</h2>
          <p>{cautionText(about)}</p>
        </section>
      ))}
      <Notice kind="info">
        The starter specs are from memory. Check them against your depth and space data before you cut.
      </Notice>
    </Screen>
  );
}
