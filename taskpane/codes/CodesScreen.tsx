/** Cut from a list: source, guesses, result, cutting sheet. */
import { Button } from '@fluentui/react-components';
import { useCallback, useMemo, useState } from 'react';
import { cuttingLines } from '../../src/keying/cutting.ts';
import { DEFAULT_RULES } from '../../src/keying/rules.ts';
import { shownIn } from '../../src/keying/shownIn.ts';
import { setupFor } from '../../src/keying/shop.ts';
import { knownKeys, planCutting, readShop } from '../../src/workbook/index.ts';
import { ShownUnit } from '../pictures/shownUnit.ts';
import { Busy } from '../shared/Busy.tsx';
import { Cautions } from '../shared/Caution.tsx';
import { useDraft } from '../shared/navigation.tsx';
import { Notice } from '../shared/Notice.tsx';
import { PlanScreen } from '../shared/PlanScreen.tsx';
import { Screen } from '../shared/Screen.tsx';
import { today } from '../shared/today.ts';
import { useUnitOf } from '../shared/UnitField.tsx';
import { usePlan } from '../shared/usePlan.ts';
import { useSteps } from '../shared/useSteps.ts';
import { useBook } from '../shared/workbook.tsx';
import { CodesColumns, type ReadingChoices } from './CodesColumns.tsx';
import type { CodesReport } from './codesJob.ts';
import { CodesResult, placeIn } from './CodesResult.tsx';
import { CodesSource } from './CodesSource.tsx';
import { sayBetterSpec } from './codesWords.ts';
import { useListChoices, type SourceList } from './useList.ts';

export function CodesScreen() {
  const [source, setSource] = useState<SourceList>();
  return source ? (
    <CodesList source={source} onBack={() => setSource(undefined)} />
  ) : (
    <CodesSource onList={setSource} />
  );
}

const READING: ReadingChoices = { lookAlikes: true, lostZeros: false, rules: DEFAULT_RULES, system: '' };

interface Props {
  readonly source: SourceList;
  readonly onBack: () => void;
}

function CodesList({ source, onBack }: Props) {
  const book = useBook();
  const list = useListChoices(source, book);
  const [reading, setReading] = useDraft<ReadingChoices>('codes.reading', READING);
  const work = useSteps('codes');
  const { state } = work;
  const { spec, order, roles, header } = list;
  const firstRow = (source.target?.box.row ?? source.above ?? 0) + (header ? 1 : 0);

  const read = (): void => {
    const system = book?.systems.find((s) => s.name === reading.system && s.spec?.name === spec.name);
    work.start({
      list: {
        spec,
        rows: source.rows.slice(header ? 1 : 0),
        roles,
        options: { order, lookAlikes: reading.lookAlikes, lostZeros: reading.lostZeros },
      },
      rules: reading.rules,
      firstRow: firstRow + 1,
      ...(system && { known: knownKeys(system) }),
    });
  };
  switch (state.step) {
    case 'busy':
      return (
        <Screen title="Cut from a list" step="busy">
          <Busy {...state.progress} onStop={work.stop} />
        </Screen>
      );
    case 'failed':
    case 'stopped':
      return (
        <Screen
          title="Cut from a list"
          step={state.step}
          back={{ label: 'Back to the columns', onClick: work.reset }}
        >
          <Notice kind={state.step === 'failed' ? 'error' : 'info'}>
            {state.step === 'failed' ? state.sentence : 'Stopped. Nothing was read to the end or written.'}
          </Notice>
        </Screen>
      );
    case 'done':
      return (
        <CodesDone source={source} list={list} report={state.value} firstRow={firstRow} onBack={work.reset} />
      );
    default:
      return (
        <CodesColumns
          source={source}
          list={list}
          systems={book?.systems ?? []}
          reading={reading}
          onReading={setReading}
          onRead={read}
          onBack={onBack}
        />
      );
  }
}

interface DoneProps {
  readonly source: SourceList;
  readonly list: ReturnType<typeof useListChoices>;
  readonly report: CodesReport;
  readonly firstRow: number;
  readonly onBack: () => void;
}

function CodesDone({ source, list, report, firstRow, onBack }: DoneProps) {
  const book = useBook();
  const run = usePlan();
  const { spec, roles } = list;
  const shop = useMemo(() => readShop(book ?? { tables: [] }), [book]);
  const setup = setupFor(spec, shop.setups);
  const [cutterName, setCutter] = useState(setup?.cutter ?? '');
  const [blank, setBlank] = useDraft<string>('codes.blank', '');
  const [chosenUnit, setUnit] = useUnitOf('codes');
  const unit = chosenUnit ?? spec.unit;
  const cutter = shop.cutters.find((c) => c.name === cutterName);
  const column = (source.target?.box.column ?? 0) + Math.max(0, roles.indexOf('code'));
  const sheet = source.target?.box.sheet;
  const placeOf = useCallback(
    (row: number) => (sheet === undefined ? undefined : placeIn(sheet, firstRow, column)(row)),
    [sheet, firstRow, column],
  );
  if (run.state.step !== 'none')
    return (
      <PlanScreen
        title="Write the cutting sheet"
        run={run}
        action="Write the cutting sheet"
        back={{ label: 'Back to the list', onClick: run.leave }}
        onDone={run.leave}
      >
        <Cautions about={['first-original', 'secret']} />
      </PlanScreen>
    );
  const plan = (): void =>
    void run.prepare((now) =>
      planCutting(now, {
        made: today(),
        spec,
        unit,
        lines: cuttingLines(
          shownIn(spec, unit),
          report.rows.map((row) => (row.blank === '' ? { ...row, blank: blank.trim() } : row)),
          report.findings,
        ),
        ...(cutter && { cutter }),
        ...(setup && { setup }),
      }),
    );
  return (
    <Screen
      title="Cut from a list"
      step="done"
      lead={`${source.name}, by ${spec.name}`}
      back={{ label: 'Back to the columns', onClick: onBack }}
      foot={
        <Button
          className="primary"
          appearance="primary"
          disabledFocusable={report.rows.length === 0}
          onClick={plan}
        >
          Plan the cutting sheet
        </Button>
      }
    >
      <ShownUnit value={unit}>
        <CodesResult
          spec={spec}
          report={report}
          shop={shop}
          cutter={cutter}
          onCutter={setCutter}
          blank={blank}
          onBlank={setBlank}
          placeOf={placeOf}
          better={sayBetterSpec(list.guess.specs, spec.name)}
          firstRow={firstRow + 1}
          unit={unit}
          onUnit={setUnit}
        />
      </ShownUnit>
    </Screen>
  );
}
