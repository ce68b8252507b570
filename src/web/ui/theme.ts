export type Theme = "system" | "light" | "dark";

/** Sets the theme on the document's root; "system" follows the device. */
export function applyTheme(theme: Theme, root: HTMLElement = document.documentElement): void {
  if (theme === "system") delete root.dataset["theme"];
  else root.dataset["theme"] = theme;
}
