/** The pane: theme, live region, workbook and the screen that is open. */
import { FluentProvider } from '@fluentui/react-components';
import { AboutScreen } from './about/AboutScreen.tsx';
import { AuditScreen } from './audit/AuditScreen.tsx';
import { CheckScreen } from './check/CheckScreen.tsx';
import { CodesScreen } from './codes/CodesScreen.tsx';
import { DecodeScreen } from './decode/DecodeScreen.tsx';
import { LostScreen } from './lost/LostScreen.tsx';
import { ConstructionScreen } from './construction/ConstructionScreen.tsx';
import { CrossScreen } from './cross/CrossScreen.tsx';
import { ExtendScreen } from './extend/ExtendScreen.tsx';
import { MakeScreen } from './make/MakeScreen.tsx';
import { CountScreen } from './people/CountScreen.tsx';
import { LedgerScreen } from './people/LedgerScreen.tsx';
import { PeopleScreen } from './people/PeopleScreen.tsx';
import { PinScreen } from './pin/PinScreen.tsx';
import { PoolScreen } from './pools/PoolScreen.tsx';
import { RepairScreen } from './repair/RepairScreen.tsx';
import { ReportsScreen } from './report/ReportsScreen.tsx';
import { ScheduleScreen } from './schedule/ScheduleScreen.tsx';
import { Announcer } from './shared/announce.tsx';
import { NavigationProvider, useNavigation, type ScreenName } from './shared/navigation.tsx';
import { PreferencesProvider } from './shared/preferences.tsx';
import { usePaneTheme } from './shared/theme.ts';
import { useCommands } from './shared/useCommands.ts';
import { useBook, WorkbookProvider } from './shared/workbook.tsx';
import { ShopScreen } from './shop/ShopScreen.tsx';
import { SolveScreen } from './solve/SolveScreen.tsx';
import { SpecsScreen } from './specs/SpecsScreen.tsx';
import { SampleScreen } from './start/SampleScreen.tsx';
import { StartScreen } from './start/StartScreen.tsx';
import { SheetPictures } from './pictures/SheetPictures.tsx';
import { SelectionStrip } from './strip/SelectionStrip.tsx';

const SCREENS: Record<ScreenName, () => React.JSX.Element> = {
  start: StartScreen,
  specs: SpecsScreen,
  make: MakeScreen,
  solve: SolveScreen,
  extend: ExtendScreen,
  cross: CrossScreen,
  construction: ConstructionScreen,
  pools: PoolScreen,
  audit: AuditScreen,
  check: CheckScreen,
  pin: PinScreen,
  codes: CodesScreen,
  shop: ShopScreen,
  decode: DecodeScreen,
  schedule: ScheduleScreen,
  people: PeopleScreen,
  ledger: LedgerScreen,
  count: CountScreen,
  lost: LostScreen,
  reports: ReportsScreen,
  repair: RepairScreen,
  about: AboutScreen,
  sample: SampleScreen,
};

export function App() {
  return (
    <FluentProvider theme={usePaneTheme()} className="pane">
      <Announcer>
        <WorkbookProvider>
          <PreferencesProvider>
            <NavigationProvider>
              <Frame />
            </NavigationProvider>
          </PreferencesProvider>
        </WorkbookProvider>
      </Announcer>
    </FluentProvider>
  );
}

function Frame() {
  const { screen, turn } = useNavigation();
  const book = useBook();
  useCommands();
  const Shown = SCREENS[screen];
  return (
    <div className="frame">
      <SheetPictures>
        <Shown key={turn} />
        {book && <SelectionStrip book={book} />}
      </SheetPictures>
    </div>
  );
}
