import type { ReactNode } from "react";
import { Dialog, Kbd } from "#web/ui";

const keys: readonly (readonly [keys: readonly string[], does: string])[] = [
  [["N", "P"], "Next or previous piece by number"],
  [["arrows"], "Move the picked piece 5 mm"],
  [["Shift", "arrows"], "Move it 1 mm"],
  [["Alt", "arrows"], "Move it 25 mm"],
  [["R"], "Turn it 15 degrees; with Shift the other way"],
  [["M"], "Move it to another shelf"],
  [["S"], "Swap it with another piece"],
  [["Delete"], "Take it out, back to the bench"],
  [["[", "]"], "Shelf below or above"],
  [["Esc"], "Let go"],
  [["Ctrl", "Z"], "Undo; Ctrl and Y does it again"],
  [["?"], "This list"],
];

export function KeysDialog({ isOpen, onClose }: { readonly isOpen: boolean; readonly onClose: () => void }): ReactNode {
  return (
    <Dialog isOpen={isOpen} onClose={onClose} title="Keys in the plan of a shelf">
      <table className="setting-key-table">
        <tbody>
          {keys.map(([names, does]) => (
            <tr key={does}>
              <th scope="row">
                {names.map((name) => (
                  <Kbd key={name}>{name}</Kbd>
                ))}
              </th>
              <td>{does}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Dialog>
  );
}
