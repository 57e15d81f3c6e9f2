/** The tasks in groups that fold, and a search over all of them. A group stays as it was left in this workbook. */
import { Button, Input } from '@fluentui/react-components';
import { SearchRegular } from '@fluentui/react-icons';
import { useState, type SyntheticEvent } from 'react';
import { counted } from '../pictures/numbers.ts';
import { useAnnounce } from '../shared/announce.tsx';
import { useNavigation } from '../shared/navigation.tsx';
import { usePreferences } from '../shared/preferences.tsx';
import { findTasks, GROUPS, type Task } from './tasks.ts';

interface Props {
  /** Systems in the workbook: a task that needs one waits until there is one. */
  readonly systems: number;
}

export function TaskList({ systems }: Props) {
  const [typed, setTyped] = useState('');
  const { go } = useNavigation();
  const announce = useAnnounce();
  const found = findTasks(typed);
  const ready = (task: Task): boolean => !task.system || systems > 0;
  const search = (text: string): void => {
    setTyped(text);
    if (text.trim()) announce(counted(findTasks(text).length, 'task'));
  };
  const first = found.find(ready);
  return (
    <>
      <Input
        className="find-task"
        type="search"
        aria-label="Find a task"
        placeholder="Find a task: lost, cut, door …"
        contentBefore={<SearchRegular />}
        value={typed}
        onChange={(_, { value }) => search(value)}
        onKeyDown={({ key }) => {
          if (key === 'Enter' && first) go(first.to);
        }}
      />
      {typed.trim() ? (
        <nav aria-label="Tasks found">
          {found.length === 0 && (
            <p>
              No task of that name. <Button onClick={() => setTyped('')}>Show all tasks</Button>
            </p>
          )}
          <ul className="plain tasks">
            {found.map((task) => (
              <li key={task.to}>
                {ready(task) ? (
                  <button type="button" onClick={() => go(task.to)}>
                    <strong>{task.title}</strong>
                    <span>{task.what}</span>
                  </button>
                ) : (
                  <p className="waiting">
                    <strong>{task.title}</strong> <span>needs a system first: make keys.</span>
                  </p>
                )}
              </li>
            ))}
          </ul>
        </nav>
      ) : (
        <nav aria-label="Tasks">
          {GROUPS.map(({ name, tasks }) => {
            const shown = tasks.filter(ready);
            return shown.length === 0 ? null : <Group key={name} name={name} tasks={shown} />;
          })}
        </nav>
      )}
    </>
  );
}

function Group({ name, tasks }: { readonly name: string; readonly tasks: readonly Task[] }) {
  const { go } = useNavigation();
  const { chosen, keep } = usePreferences();
  const folded = chosen?.folded ?? [];
  const open = !folded.includes(name);
  const toggled = ({ currentTarget }: SyntheticEvent<HTMLDetailsElement>): void => {
    if (currentTarget.open === open) return;
    const others = folded.filter((other) => other !== name);
    keep({ folded: currentTarget.open ? others : [...others, name] });
  };
  return (
    <details className="task-group" open={open} onToggle={toggled}>
      <summary>
        <h2>{name}</h2>
      </summary>
      <ul className="plain">
        {tasks.map(({ to, title, what }) => (
          <li key={to}>
            <button type="button" title={what} onClick={() => go(to)}>
              {title}
            </button>
          </li>
        ))}
      </ul>
    </details>
  );
}
