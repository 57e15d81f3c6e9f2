import { Fragment, useMemo } from 'react';
import type { Specification } from '../../src/keying/specification.ts';
import { useShown } from '../pictures/shownUnit.ts';
import { specFacts } from './explain.ts';

/** The dimensions of a spec with what each means. */
export function SpecFacts({ spec: written }: { readonly spec: Specification }) {
  const spec = useShown(written);
  const facts = useMemo(() => specFacts(spec), [spec]);
  return (
    <dl className="facts" aria-label={`Dimensions of ${spec.name}`}>
      {facts.map(({ label, value, means }) => (
        <Fragment key={label}>
          <dt>{label}</dt>
          <dd>{value}</dd>
          <dd className="means">{means}</dd>
        </Fragment>
      ))}
    </dl>
  );
}
