/** A spec out of this workbook as text, and specs into it from text. */
import { Button, Field, Textarea } from '@fluentui/react-components';
import { useMemo } from 'react';
import type { Specification } from '../../src/keying/specification.ts';
import { counted, listed } from '../pictures/numbers.ts';
import { FaultList } from '../shared/FaultList.tsx';
import { Fold } from '../shared/Fold.tsx';
import { useDraft } from '../shared/navigation.tsx';
import { readSpecText, specText } from './specText.ts';

interface Props {
  readonly spec: Specification;
  readonly onTake: (specs: readonly Specification[]) => void;
}

export function SpecTableFold({ spec, onTake }: Props) {
  const [text, setText] = useDraft<string>('specs.text', '');
  const read = useMemo(() => (text.trim() === '' ? undefined : readSpecText(text)), [text]);
  return (
    <Fold label="As a table: copy out, paste in">
      <Field
        label={`${spec.name} as a row`}
        hint="Select all of it and copy: into a sheet, a mail, or the field below in another workbook."
      >
        <Textarea
          readOnly
          rows={3}
          value={specText([spec])}
          textarea={{ className: 'code', onFocus: ({ target }) => target.select() }}
        />
      </Field>
      <Field label="Specs from elsewhere" hint="Rows of a Specs table, with the headings above them.">
        <Textarea
          rows={4}
          value={text}
          textarea={{ className: 'code', spellCheck: false }}
          onChange={(_, { value }) => setText(value)}
        />
      </Field>
      {read && read.faults.length > 0 && (
        <FaultList
          label="What can’t be read in the pasted specs"
          lines={read.faults.map((sentence) => ({ severity: 'fault', sentence }))}
        />
      )}
      {read && read.specs.length > 0 && (
        <>
          <p role="status">
            {counted(read.specs.length, 'spec')} read: {listed(read.specs.map(({ name }) => name))}.
          </p>
          <div className="ways">
            <Button onClick={() => onTake(read.specs)}>
              Plan to add {read.specs.length === 1 ? 'it' : 'them'}
            </Button>
          </div>
        </>
      )}
    </Fold>
  );
}
