/** What measured centres tell by themselves: the specs whose spacing they fit, and how far each cut lies off. */
import { fitSpacing, type SpacingFit } from '../../src/keying/fitSpacing.ts';
import type { Specification } from '../../src/keying/specification.ts';
import { formatNumber, lengthOf, type Length } from '../../src/keying/units.ts';
import { unitWords } from '../pictures/bladeText.ts';
import { useShown } from '../pictures/shownUnit.ts';
import { TextTable } from '../pictures/TextTable.tsx';
import { Notice } from '../shared/Notice.tsx';
import { NO_SPEC, saySpacing } from './decodeWords.ts';
import { FitSelect } from './FitSelect.tsx';

interface Props {
  readonly specs: readonly Specification[];
  readonly centres: readonly Length[];
  /** Name of the spec looked at; any other stands for the best. */
  readonly chosen: string;
  readonly onChoose: (name: string) => void;
}

export function SpacingFits({ specs, centres, chosen, onChoose }: Props) {
  const fits = fitSpacing(specs, centres);
  const fit = fits.find(({ spec }) => spec.name === chosen) ?? fits[0];
  return fit ? <Spaced {...{ fits, fit, centres, onChoose }} /> : <Notice kind="warning">{NO_SPEC}</Notice>;
}

interface SpacedProps extends Pick<Props, 'centres' | 'onChoose'> {
  readonly fits: readonly SpacingFit[];
  readonly fit: SpacingFit;
}

function Spaced({ fits, fit, centres, onChoose }: SpacedProps) {
  const spec = useShown(fit.spec);
  const length = (l: number): string => formatNumber(lengthOf(l), spec.unit);
  const fromStop = [...centres].sort((a, b) => a - b);
  return (
    <>
      <FitSelect fits={fits} value={spec.name} hint={saySpacing(fit, spec.unit)} onChoose={onChoose} />
      <Notice kind={fit.verdict === 'good' ? 'info' : fit.verdict === 'fair' ? 'warning' : 'error'}>
        The spaces alone give no code: for that, measure the root depths too. Specs that share a spacing stand
        side by side here.
      </Notice>
      <TextTable
        caption={`Centres against ${spec.name}, in ${unitWords(spec.unit)}`}
        columns={['From stop', 'Reads', 'Spec', 'Off by']}
        rows={fromStop.map((centre, i) => [
          String(i + 1),
          length(centre),
          length(fit.spec.centres[i]!),
          length(centre - fit.spec.centres[i]!),
        ])}
      />
    </>
  );
}
