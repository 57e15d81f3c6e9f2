/** A list to choose from by typing: systems have thousands of keys and doors. */
import { Combobox, Field, Option } from '@fluentui/react-components';
import { useState } from 'react';

/** Beyond so many a list is no help: type to narrow it. */
const MOST_OPTIONS = 100;

interface Props {
  readonly label: string;
  readonly hint?: string;
  readonly options: readonly { readonly value: string; readonly text: string }[];
  readonly chosen: readonly string[];
  readonly many?: boolean;
  readonly onChoose: (values: readonly string[]) => void;
}

export function Choice({ label, hint, options, chosen, many = false, onChoose }: Props) {
  const [typed, setTyped] = useState<string>();
  const shown = options.filter(({ text }) => text.toLowerCase().includes((typed ?? '').trim().toLowerCase()));
  const text = options
    .filter(({ value }) => chosen.includes(value))
    .map((o) => o.text)
    .join(', ');
  return (
    <Field
      label={label}
      {...(shown.length > MOST_OPTIONS
        ? { hint: `The first ${MOST_OPTIONS} are listed; type to narrow.` }
        : hint === undefined
          ? {}
          : { hint })}
    >
      <Combobox
        multiselect={many}
        freeform
        selectedOptions={[...chosen]}
        value={typed ?? text}
        onChange={(event) => setTyped(event.target.value)}
        onOpenChange={(_, { open }) => !open && setTyped(undefined)}
        onOptionSelect={(_, { selectedOptions }) => {
          setTyped(undefined);
          onChoose(selectedOptions);
        }}
      >
        {shown.slice(0, MOST_OPTIONS).map(({ value, text: words }) => (
          <Option key={value} value={value} text={words}>
            {words}
          </Option>
        ))}
      </Combobox>
    </Field>
  );
}
