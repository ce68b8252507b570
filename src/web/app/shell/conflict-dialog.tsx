import { useState, type ReactNode } from "react";
import { usePageState, useStudio, useStudioView } from "#web/state";
import { Button, Checkbox, Dialog } from "#web/ui";
import { todayIso } from "../words.ts";
import { conflictText } from "./conflict-words.ts";

/** Changed here and on another screen: both versions side by side. Nothing is saved over until it is answered. */
export function ConflictDialog(): ReactNode {
  const { studio } = usePageState();
  const { conflicts } = useStudioView();
  const document = useStudio();
  const [alone, setAlone] = useState(false);
  const question = conflicts[0];
  if (!question) return null;
  const text = conflictText(question, document, todayIso());
  const more = conflicts.length - 1;
  const answer = (keep: "mine" | "theirs"): void => {
    for (const { key } of alone ? [question] : conflicts) studio.answer(key, keep);
    setAlone(false);
  };
  return (
    <Dialog
      isOpen
      mustAnswer
      onClose={() => {}}
      title="Changed in two places"
      actions={
        <>
          {more > 0 ? (
            <Checkbox isSelected={!alone} onChange={(together) => setAlone(!together)}>
              The same for the {more === 1 ? "other one" : `${more} others`}
            </Checkbox>
          ) : null}
          <Button onPress={() => answer("theirs")}>Keep the other screen’s</Button>
          <Button variant="primary" onPress={() => answer("mine")}>
            Keep mine
          </Button>
        </>
      }
    >
      <p>
        <b>{text.title}</b> was changed on another screen before yours was saved. If pieces are already in the kiln,
        keep the version that is true there.
      </p>
      <div className="app-versions">
        <Version title="Mine" lines={text.mine} />
        <Version title="The other screen’s" lines={text.theirs} />
      </div>
    </Dialog>
  );
}

function Version({ title, lines }: { readonly title: string; readonly lines: readonly string[] }): ReactNode {
  return (
    <section>
      <h3>{title}</h3>
      <ul className="app-lines">
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </section>
  );
}
