import { applyTheme, type Theme } from "#web/ui";

const place = "spyhole-theme";

/** Light or dark is a matter of this screen, not of the studio: it is kept in this browser. */
export function storedTheme(): Theme {
  const stored = localStorage.getItem(place);
  return stored === "light" || stored === "dark" ? stored : "system";
}

export function storeTheme(theme: Theme): void {
  localStorage.setItem(place, theme);
  applyTheme(theme);
}

export function applyStoredTheme(): void {
  applyTheme(storedTheme());
}
