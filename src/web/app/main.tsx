import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { browserPageState, PageStateContext } from "#web/state";
import { App } from "./app.tsx";
import { applyStoredTheme } from "./shell/stored-theme.ts";

applyStoredTheme();
const page = browserPageState();
void page.studio.open();

const place = document.getElementById("app");
if (!place) throw new Error('index.html has no element "app"');
createRoot(place).render(
  <StrictMode>
    <PageStateContext value={page}>
      <App />
    </PageStateContext>
  </StrictMode>,
);
