/** One line of text with its label: a hint until there is a fault, then the fault in its place. */
import { Field, Input } from '@fluentui/react-components';

interface Props {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly fault?: string | undefined;
  readonly hint?: string | undefined;
  readonly placeholder?: string | undefined;
}

export function TextField({ label, value, onChange, fault, hint, placeholder }: Props) {
  return (
    <Field
      label={label}
      {...(hint && !fault ? { hint } : {})}
      {...(fault ? { validationState: 'error' as const, validationMessage: fault } : {})}
    >
      <Input
        value={value}
        {...(placeholder ? { placeholder } : {})}
        onChange={(_, data) => onChange(data.value)}
      />
    </Field>
  );
}
