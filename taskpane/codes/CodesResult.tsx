/** What came out of a list: counts, reasons, depths in use, the rows behind a reason, and what it is cut with. */
import { Field, Select } from '@fluentui/react-components';
import { useMemo, useState } from 'react';
import { cutterFits, type ShopCutter } from '../../src/keying/shop.ts';
import { sayCutterFit } from '../../src/keying/shopWording.ts';
import type { Specification } from '../../src/keying/specification.ts';
import type { Unit } from '../../src/keying/units.ts';
import { ruleTitle } from '../../src/keying/wording.ts';
import { cellAddress, type Place, type ShopReading } from '../../src/workbook/index.ts';
import { DepthPicture } from '../pictures/DepthPicture.tsx';
import { useShown } from '../pictures/shownUnit.ts';
import { BlankChoice } from './BlankChoice.tsx';
import { Cautions } from '../shared/Caution.tsx';
import { FaultList, type FaultLine } from '../shared/FaultList.tsx';
import { UnitField } from '../shared/UnitField.tsx';
import { Notice } from '../shared/Notice.tsx';
import { isBarred, reasonsOf, severityOfRow, type CodesReport, type Reason } from './codesJob.ts';
import { countsOf, reasonOf, rowSentence } from './codesWords.ts';

type Filter = Reason | 'barred' | 'any';

interface Props {
  readonly spec: Specification;
  readonly report: CodesReport;
  readonly shop: ShopReading;
  readonly cutter: ShopCutter | undefined;
  readonly onCutter: (name: string) => void;
  readonly blank: string;
  readonly onBlank: (blank: string) => void;
  /** Place of a row's code in the sheet; none for a pasted list. */
  readonly placeOf: (row: number) => Place | undefined;
  /** A spec that the list fits much better, in words; '' for none. */
  readonly better: string;
  /** Number of the first row below the headings, as the person counts rows. */
  readonly firstRow: number;
  /** Of the lengths here and on the cutting sheet. */
  readonly unit: Unit;
  readonly onUnit: (unit: Unit) => void;
}

export function CodesResult(props: Props) {
  const { spec, report, shop, cutter, placeOf, firstRow, unit } = props;
  const [filter, setFilter] = useState<Filter>('any');
  const lines = useMemo(
    () => linesOf(report, filter, { placeOf, firstRow, unit }),
    [report, filter, placeOf, firstRow, unit],
  );
  const bittings = useMemo(
    () => report.rows.flatMap((row) => (row.code.bitting ? [row.code.bitting] : [])),
    [report],
  );
  const barred = report.barred > 0;
  return (
    <div className="stack">
      <Notice kind={barred ? 'error' : report.doubtful > 0 ? 'warning' : 'success'}>
        {countsOf(report)}
        {barred && ' Those stay on the cutting sheet, with the reason and without cuts.'}
      </Notice>
      {barred && props.better !== '' && (
        <Notice kind="warning">{props.better} Go back to the columns to choose it.</Notice>
      )}
      {report.notChecked.length > 0 && (
        <p className="lead">
          Not checked, for lack of a system: {report.notChecked.map(ruleTitle).join('; ')}.
        </p>
      )}
      {report.reasons.length > 0 && (
        <ul className="plain" aria-label="Reasons">
          {report.reasons.map((reason) => (
            <li key={reason.reason}>{reasonOf(reason)}</li>
          ))}
        </ul>
      )}
      {bittings.length > 0 && <DepthPicture spec={spec} bittings={bittings} />}
      {report.reasons.length > 0 && (
        <>
          <Field label="Show the rows that">
            <Select value={filter} onChange={(_, { value }) => setFilter(value as Filter)}>
              <option value="any">have anything to them</option>
              {barred && <option value="barred">can’t be cut</option>}
              {report.reasons.map((reason) => (
                <option key={reason.reason} value={reason.reason}>
                  {reasonOf(reason)}
                </option>
              ))}
            </Select>
          </Field>
          <FaultList key={filter} label="Rows with something to look at" lines={lines} />
        </>
      )}
      <CutterChoice spec={spec} shop={shop} cutter={cutter} onCutter={props.onCutter} />
      <BlankChoice spec={spec} blanks={shop.blanks} value={props.blank} onChange={props.onBlank} />
      <UnitField label="Lengths here and on the sheet" value={unit} onChange={props.onUnit} />
      <Cautions about={['first-original', 'secret']} />
    </div>
  );
}

function CutterChoice({
  spec,
  shop,
  cutter,
  onCutter,
}: Pick<Props, 'spec' | 'shop' | 'cutter' | 'onCutter'>) {
  const shown = useShown(spec);
  const fits = cutterFits(spec, shop.cutters);
  if (fits.length === 0)
    return (
      <p className="lead">
        Cutter: the spec’s own. Add yours under “Shop tables” to see its passes and what it would eat.
      </p>
    );
  const chosen = fits.find((fit) => fit.cutter.name === cutter?.name);
  return (
    <Field
      label="Cutter at hand"
      hint={chosen ? sayCutterFit(shown, chosen).join(' ') : 'As the spec describes it.'}
    >
      <Select value={cutter?.name ?? ''} onChange={(_, { value }) => onCutter(value)}>
        <option value="">the spec’s own</option>
        {fits.map((fit) => (
          <option key={fit.cutter.name} value={fit.cutter.name}>
            {fit.cutter.name}
            {fit.limits ? ' (not for every code)' : ''}
          </option>
        ))}
      </Select>
    </Field>
  );
}

const RANK = { fault: 0, warning: 1, note: 2 } as const;

function linesOf(
  report: CodesReport,
  filter: Filter,
  { placeOf, firstRow, unit }: Pick<Props, 'placeOf' | 'firstRow' | 'unit'>,
): FaultLine[] {
  const lines: FaultLine[] = [];
  report.rows.forEach((row, i) => {
    const findings = report.findings[i];
    const reasons = reasonsOf(row, findings);
    const shown =
      filter === 'any'
        ? reasons.length > 0
        : filter === 'barred'
          ? isBarred(row, findings)
          : reasons.includes(filter);
    if (!shown) return;
    const at = placeOf(row.index);
    const place = at ? '' : `Row ${firstRow + row.index}: `;
    lines.push({
      severity: severityOfRow(row, findings),
      // put into words only when it is shown: fifty of perhaps 100,000
      get sentence() {
        return place + rowSentence(row, findings, unit);
      },
      ...(at && { at }),
    });
  });
  return lines.sort((a, b) => RANK[a.severity] - RANK[b.severity]);
}

/** Where a row's code stands, by the row's index below the header. */
export const placeIn =
  (sheet: string, firstRow: number, column: number) =>
  (row: number): Place => ({ sheet, address: cellAddress(firstRow + row, column) });
