/** Decode a key: readings in, the specs that fit it best out, with the blade that the best code would give. */
import { Button, Field, Input } from '@fluentui/react-components';
import { useMemo, useState } from 'react';
import { fitSpecs, type SpecFit } from '../../src/keying/fitSpecs.ts';
import { LEAST_POSITIONS, MOST_POSITIONS } from '../../src/keying/specification.ts';
import { findingIn } from '../../src/keying/shownIn.ts';
import { formatNumber, type Length } from '../../src/keying/units.ts';
import { severityOf } from '../../src/keying/findings.ts';
import { sayGroups } from '../../src/keying/sayAll.ts';
import { readTarget } from '../../src/workbook/index.ts';
import { BladePicture } from '../pictures/BladePicture.tsx';
import { unitWords } from '../pictures/bladeText.ts';
import { counted } from '../pictures/numbers.ts';
import { ShownUnit, useShown, useShownUnit } from '../pictures/shownUnit.ts';
import { TextTable } from '../pictures/TextTable.tsx';
import { Cautions } from '../shared/Caution.tsx';
import { FaultList } from '../shared/FaultList.tsx';
import { useDraft } from '../shared/navigation.tsx';
import { Notice } from '../shared/Notice.tsx';
import { Screen } from '../shared/Screen.tsx';
import { UnitField, useUnitOf } from '../shared/UnitField.tsx';
import { useBook } from '../shared/workbook.tsx';
import { specChoices } from '../specs/choices.ts';
import { NO_SPEC, sayFit, sureCode } from './decodeWords.ts';
import { FitSelect } from './FitSelect.tsx';
import { readLengths } from './readingsText.ts';
import { SpacingFits } from './SpacingFits.tsx';

/** What is typed, read as far as it can be. */
function useReadings() {
  const [roots, setRoots] = useDraft<string>('decode.roots', '');
  const [centres, setCentres] = useDraft<string>('decode.centres', '');
  const [chosenUnit, setUnit] = useUnitOf('decode');
  const unit = chosenUnit ?? 'in';
  return {
    roots,
    setRoots,
    centres,
    setCentres,
    unit,
    chosenUnit,
    setUnit,
    rootsRead: useMemo(() => readLengths(roots, unit), [roots, unit]),
    centresRead: useMemo(() => readLengths(centres, unit), [centres, unit]),
  };
}

/** Why the readings can't be used yet; '' where they can. */
function troubleOf(roots: readonly Length[], centres: readonly Length[]): string {
  if (roots.length === 0)
    return centres.length < LEAST_POSITIONS || centres.length > MOST_POSITIONS
      ? `${counted(centres.length, 'centre')}; a key has ${LEAST_POSITIONS} to ${MOST_POSITIONS} cuts.`
      : '';
  if (roots.length < LEAST_POSITIONS || roots.length > MOST_POSITIONS)
    return `${counted(roots.length, 'root depth')}; a key has ${LEAST_POSITIONS} to ${MOST_POSITIONS}.`;
  if (centres.length > 0 && centres.length !== roots.length)
    return `${counted(centres.length, 'centre')} for ${counted(roots.length, 'root depth')}; give one for each, or none.`;
  return '';
}

export function DecodeScreen() {
  const book = useBook();
  const readings = useReadings();
  const [trouble, setTrouble] = useState('');
  const [chosen, setChosen] = useState('');
  const specs = useMemo(() => {
    const { own, starters } = specChoices(book);
    return [...own, ...starters];
  }, [book]);
  const { rootsRead, centresRead } = readings;
  const empty = readings.roots.trim() === '' && readings.centres.trim() === '';
  const noRoots = readings.roots.trim() === '';
  const why = empty || !rootsRead.ok || !centresRead.ok ? '' : troubleOf(rootsRead.value, centresRead.value);
  const fits = useMemo(
    () =>
      noRoots || !rootsRead.ok || !centresRead.ok || why !== ''
        ? undefined
        : fitSpecs(specs, {
            roots: rootsRead.value,
            ...(centresRead.value.length > 0 && { centres: centresRead.value }),
          }),
    [noRoots, rootsRead, centresRead, why, specs],
  );
  const takeSelection = async (): Promise<void> => {
    const target = await readTarget('selection');
    setTrouble(target.ok ? '' : target.error.sentence);
    const cells = target.ok ? target.value.values.flat().filter((cell) => typeof cell === 'number') : [];
    if (target.ok && (cells.length < LEAST_POSITIONS || cells.length > MOST_POSITIONS))
      setTrouble(
        `${counted(cells.length, 'number')} in these cells; select the ${LEAST_POSITIONS} to ${MOST_POSITIONS} readings of one key.`,
      );
    else if (target.ok) readings.setRoots(cells.join(' '));
  };
  const fit = fits?.find((f) => f.spec.name === chosen) ?? fits?.[0];
  return (
    <Screen
      title="Decode a key"
      lead="Root depths from a caliper: which spec they fit, which code they give, and how well."
      foot={
        <Button className="primary" appearance="primary" onClick={() => void takeSelection()}>
          Take the selected cells
        </Button>
      }
    >
      <div className="stack">
        {trouble && <Notice kind="error">{trouble}</Notice>}
        <Field
          label="Root depths, along the code"
          hint="From the blade’s bottom to the bottom of each cut, apart by spaces."
          {...(rootsRead.ok ? {} : { validationMessage: rootsRead.error })}
        >
          <Input value={readings.roots} onChange={(_, { value }) => readings.setRoots(value)} />
        </Field>
        <Field
          label="Centres from the stop, if measured"
          hint="In the same order. They tell specs apart that have the same depths; alone, they tell the spec but no code."
          {...(centresRead.ok ? {} : { validationMessage: centresRead.error })}
        >
          <Input value={readings.centres} onChange={(_, { value }) => readings.setCentres(value)} />
        </Field>
        <UnitField
          label="Unit of the readings"
          hint="A unit typed behind a reading goes before this."
          value={readings.unit}
          onChange={readings.setUnit}
        />
        {why !== '' && <Notice kind="info">{why}</Notice>}
        {fits?.length === 0 && <Notice kind="warning">{NO_SPEC}</Notice>}
        {noRoots && !empty && why === '' && centresRead.ok && (
          <ShownUnit value={readings.chosenUnit}>
            <SpacingFits specs={specs} centres={centresRead.value} chosen={chosen} onChoose={setChosen} />
          </ShownUnit>
        )}
        {fits && fit && (
          <ShownUnit value={readings.chosenUnit}>
            <Fits fits={fits} fit={fit} onChoose={setChosen} />
          </ShownUnit>
        )}
      </div>
    </Screen>
  );
}

interface Props {
  readonly fits: readonly SpecFit[];
  readonly fit: SpecFit;
  readonly onChoose: (name: string) => void;
}

function Fits({ fits, fit, onChoose }: Props) {
  const { decoding, verdict } = fit;
  const unit = useShownUnit();
  const spec = useShown(fit.spec);
  const { clear } = decoding;
  const length = (l: Length): string => formatNumber(l, spec.unit);
  return (
    <>
      <FitSelect fits={fits} value={spec.name} hint={sayFit({ ...fit, spec })} onChoose={onChoose} />
      <Notice kind={verdict === 'good' && clear ? 'success' : verdict === 'poor' ? 'error' : 'warning'}>
        {verdict === 'poor' ? 'No code to trust: the nearest would be ' : 'Code '}
        <strong className="code">{sureCode(fit)}</strong>
        {clear ? '.' : '. A ? is a cut in doubt; the picture shows the nearest depth there.'}
      </Notice>
      {decoding.findings.length > 0 && (
        <FaultList
          label="Cuts in doubt"
          lines={sayGroups(decoding.findings.map((finding) => findingIn(finding, unit))).map(
            ({ sentence, findings }) => ({
              severity: severityOf(findings[0]!),
              sentence,
            }),
          )}
        />
      )}
      <BladePicture spec={spec} bitting={decoding.bitting} />
      <TextTable
        caption={`Readings against ${spec.name}, in ${unitWords(spec.unit)}`}
        columns={['Cut', 'Reads', 'Depth', 'Off by']}
        rows={decoding.cuts.map((cut) => [
          String(cut.symbolNumber),
          length(cut.reading),
          `${cut.symbol} (${length(cut.root)})`,
          length(cut.deviation),
        ])}
      />
      <Cautions about={['first-original']} />
    </>
  );
}
