import { useState, type ReactNode } from "react";
import { apiPaths, refusalSchema, type Refusal } from "#protocol";
import { usePageState, useStudio } from "#web/state";
import { Button, Dialog } from "#web/ui";

/** Puts a studio file in place of the whole studio. A wrong file changes nothing and says where it is wrong. */
export function ImportDialog({
  isOpen,
  onClose,
}: {
  readonly isOpen: boolean;
  readonly onClose: () => void;
}): ReactNode {
  const { door } = usePageState();
  const { studio } = useStudio();
  const [file, setFile] = useState<File | null>(null);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const [isBusy, setBusy] = useState(false);
  const close = (): void => {
    setFile(null);
    setRefusal(null);
    onClose();
  };
  const send = async (): Promise<void> => {
    if (!file) return;
    setBusy(true);
    const answer = await readAndSend(file, (body) => door.request(apiPaths.import, { method: "POST", body }));
    setBusy(false);
    setRefusal(answer);
    // Settings, undo and forecasts belonged to the old studio.
    if (answer === null) location.assign(location.pathname);
  };
  return (
    <Dialog
      isOpen={isOpen}
      onClose={close}
      title="Open a studio file"
      actions={
        <>
          <Button onPress={close}>Change nothing</Button>
          <Button variant="primary" isDisabled={file === null} isPending={isBusy} onPress={() => void send()}>
            Replace {studio.name}
          </Button>
        </>
      }
    >
      <p>
        The file takes the place of {studio.name}: all its pieces, kilns and settings. Save it as a file first if you
        may want it back.
      </p>
      <label className="app-file">
        <span className="ui-label">Studio file (.json)</span>
        <input
          type="file"
          accept=".json,application/json"
          onChange={(event) => {
            setFile(event.target.files?.[0] ?? null);
            setRefusal(null);
          }}
        />
      </label>
      {refusal === null ? null : (
        <div role="alert">
          <p>
            <b>{refusal.error}</b> Nothing was changed.
          </p>
          <ul className="app-problems">
            {refusal.problems?.slice(0, 12).map((problem) => (
              <li key={problem.path}>
                <b>{problem.path}</b> is {problem.value}; expected {problem.expected}.
              </li>
            ))}
          </ul>
        </div>
      )}
    </Dialog>
  );
}

async function readAndSend(file: File, send: (body: unknown) => Promise<Response>): Promise<Refusal | null> {
  let body: unknown;
  try {
    body = JSON.parse(await file.text());
  } catch (error) {
    return { error: `${file.name} is not JSON: ${(error as Error).message}.` };
  }
  try {
    const response = await send(body);
    if (response.ok) return null;
    const refusal = refusalSchema.safeParse(await response.json());
    return refusal.success ? refusal.data : { error: `Spyhole answered with an error (${response.status}).` };
  } catch {
    return { error: "Spyhole does not answer. Is it still running on this computer?" };
  }
}
