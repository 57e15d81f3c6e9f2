/** Shop tables: what the shop has in cutters, blanks, set-ups and pins, and how it suits a spec. */
import { Button, Field, Select } from '@fluentui/react-components';
import { useMemo } from 'react';
import { blanksFor, cutterFits, setupFor, type BlankFit } from '../../src/keying/shop.ts';
import { sayCutterFit } from '../../src/keying/shopWording.ts';
import type { Specification } from '../../src/keying/specification.ts';
import { foldName } from '../../src/keying/specTable.ts';
import { planShop, readShop, SHOP_TABLES, type ShopReading } from '../../src/workbook/index.ts';
import { counted } from '../pictures/numbers.ts';
import { useShown } from '../pictures/shownUnit.ts';
import { FaultList } from '../shared/FaultList.tsx';
import { Fold } from '../shared/Fold.tsx';
import { useDraft } from '../shared/navigation.tsx';
import { Notice } from '../shared/Notice.tsx';
import { PlanScreen } from '../shared/PlanScreen.tsx';
import { Screen } from '../shared/Screen.tsx';
import { UnitSwitch } from '../shared/UnitField.tsx';
import { usePlan } from '../shared/usePlan.ts';
import { useBook, useWorkbook } from '../shared/workbook.tsx';
import { chosenSpec, specChoices } from '../specs/choices.ts';
import { SpecSelect } from '../specs/SpecSelect.tsx';

export function ShopScreen() {
  const book = useBook();
  const { refresh } = useWorkbook();
  const run = usePlan();
  const shop = useMemo(() => readShop(book ?? { tables: [] }), [book]);
  const choices = specChoices(book);
  const [name, setName] = useDraft<string>('shop.spec', '');
  const spec = chosenSpec(choices, name);
  const missing = SHOP_TABLES.filter((table) => !shop.present.includes(table));
  if (run.state.step !== 'none')
    return (
      <PlanScreen
        title="Add the shop’s tables"
        run={run}
        action="Add the sheets"
        back={{ label: 'Back to the shop', onClick: run.leave }}
        onDone={run.leave}
      >
        <p className="lead">The sheets are empty: fill them with what you have, as you measured it.</p>
      </PlanScreen>
    );
  return (
    <Screen
      title="Shop tables"
      lead="Your cutters, set-ups, blanks and pins, and how they suit a spec."
      foot={
        missing.length > 0 ? (
          <Button
            className="primary"
            appearance="primary"
            onClick={() => void run.prepare((now) => planShop(now))}
          >
            Plan the {missing.length === SHOP_TABLES.length ? 'four sheets' : 'missing sheets'}
          </Button>
        ) : (
          <Button className="primary" appearance="primary" onClick={() => void refresh()}>
            Read again
          </Button>
        )
      }
    >
      <div className="stack">
        {missing.length > 0 && (
          <Notice kind="info">
            Not in this workbook yet: {missing.join(', ')}. They are added empty, each on a sheet of its own.
          </Notice>
        )}
        {shop.problems.length > 0 && <Problems problems={shop.problems} />}
        <SpecSelect choices={choices} value={spec.name} onChange={setName} hint={spec.title} />
        {shop.cutters.length > 0 && <UnitSwitch />}
        <Cutters spec={spec} shop={shop} />
        <Setup spec={spec} shop={shop} />
        <Blanks spec={spec} shop={shop} />
        {shop.present.includes('Pins') && (
          <p className="lead">
            {shop.pins.length === 0
              ? 'The sheet Pins is empty, so the pinning sheet gives lengths as they are.'
              : `${counted(shop.pins.length, 'pin size')} in the kit; the pinning sheet rounds to them.`}
          </p>
        )}
      </div>
    </Screen>
  );
}

/** Faults up to this number stand open; more would push the shop's tools off the screen. */
const OPEN = 3;

function Problems({ problems }: Pick<ShopReading, 'problems'>) {
  const label = 'What can’t be read in the shop’s tables';
  const list = (
    <FaultList
      label={label}
      lines={problems.map(({ severity, sentence, sheet, address }) => ({
        severity,
        sentence,
        at: { sheet, address },
      }))}
    />
  );
  if (problems.length <= OPEN) return list;
  return (
    <>
      <Notice kind="error">
        {counted(problems.length, 'cell')} of the shop’s tables can’t be read. Their rows are left out below.
      </Notice>
      <Fold label={label}>{list}</Fold>
    </>
  );
}

interface Props {
  readonly spec: Specification;
  readonly shop: ShopReading;
}

function Cutters({ spec, shop }: Props) {
  const shown = useShown(spec);
  if (!shop.present.includes('Cutters')) return null;
  const fits = cutterFits(spec, shop.cutters);
  return (
    <>
      <h2>Cutters</h2>
      {fits.length === 0 && <p className="lead">The sheet Cutters is empty.</p>}
      {fits.length > 0 && (
        <FaultList
          label="Cutters"
          lines={fits.map((fit) => ({
            severity: fit.limits
              ? 'fault'
              : fit.fit === 'too-wide' || fit.angleOff !== 0
                ? 'warning'
                : 'note',
            sentence: `${fit.cutter.name}. ${sayCutterFit(shown, fit).join(' ')}`,
          }))}
        />
      )}
    </>
  );
}

function Setup({ spec, shop }: Props) {
  if (!shop.present.includes('Setups')) return null;
  const setup = setupFor(spec, shop.setups);
  return (
    <>
      <h2>Set-up</h2>
      {setup ? (
        <dl className="facts">
          <dt>Cutter</dt>
          <dd>{setup.cutter ?? 'not stated'}</dd>
          <dt>Held</dt>
          <dd>{setup.hold || 'not stated'}</dd>
          <dt>Stopped</dt>
          <dd>{setup.stop || 'not stated'}</dd>
        </dl>
      ) : (
        <p className="lead">The sheet Setups has no row for {spec.name}.</p>
      )}
    </>
  );
}

function Blanks({ spec, shop }: Props) {
  const keyways = useMemo(
    () => [...new Map(shop.blanks.flatMap((b) => b.keyways).map((k) => [foldName(k), k])).values()].sort(),
    [shop.blanks],
  );
  const [chosen, setChosen] = useDraft<string>('shop.keyway', '');
  if (!shop.present.includes('Blanks')) return null;
  const keyway = keyways.find((k) => k === chosen) ?? keyways[0];
  if (keyway === undefined)
    return (
      <>
        <h2>Blanks</h2>
        <p className="lead">The sheet Blanks is empty.</p>
      </>
    );
  return (
    <>
      <h2>Blanks</h2>
      <Field label="Keyway">
        <Select value={keyway} onChange={(_, { value }) => setChosen(value)}>
          {keyways.map((each) => (
            <option key={each}>{each}</option>
          ))}
        </Select>
      </Field>
      <FaultList
        label={`Blanks for the keyway ${keyway}`}
        lines={blanksFor(spec, keyway, shop.blanks).map((fit) => ({
          severity: fit.lacks > 0 ? 'fault' : 'note',
          sentence: sayBlank(fit),
        }))}
      />
    </>
  );
}

function sayBlank({ blank, by, lacks }: BlankFit): string {
  const why = by === 'keyway' ? 'enters the keyway' : 'is named as an equivalent';
  return `${blank.name} ${why}${lacks > 0 ? `, but has room for ${counted(lacks, 'cut')} too few` : ''}.`;
}
