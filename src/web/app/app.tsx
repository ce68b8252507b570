import { lazy, Suspense, useEffect, type ReactNode } from "react";
import { usePageState, useStudioView } from "#web/state";
import { Announcer, Button, RoomBar, TopBar, type Room } from "#web/ui";
import "./app.css";
import { BenchScreen } from "./bench/bench-screen.tsx";
import { addressOf, goTo, useRoute, type RoomId } from "./route.ts";
import { ConflictDialog } from "./shell/conflict-dialog.tsx";
import { SavingState } from "./shell/saving-state.tsx";
import { StudioMenu } from "./shell/studio-menu.tsx";
import { UndoDialog } from "./shell/undo-dialog.tsx";
import { useUndoKeys } from "./shell/undo-keys.ts";
import { media, useMedia } from "./use-media.ts";

// Drawings, checks and charts come when a setting is first opened.
const PhoneBench = lazy(async () => ({ default: (await import("./bench/phone-bench.tsx")).PhoneBench }));
const SettingScreen = lazy(async () => ({ default: (await import("./setting/setting-screen.tsx")).SettingScreen }));

const rooms: readonly Room<RoomId>[] = [
  { id: "bench", name: "Bench", href: addressOf({ room: "bench" }) },
  { id: "setting", name: "Setting", href: addressOf({ room: "setting", settingId: null }) },
];

/** The page: top bar, the room the address names, and the questions that have to be answered. */
export function App(): ReactNode {
  const route = useRoute();
  const { phase, document } = useStudioView();
  // A phone finds pieces; a desk and a tablet have the whole bench.
  const isPhone = useMedia(media.phone);
  useUndoKeys();
  useEffect(() => {
    const room = rooms.find(({ id }) => id === route.room)?.name ?? "Spyhole";
    globalThis.document.title = `${room}, Spyhole`;
  }, [route.room]);
  const onRoom = (room: RoomId): void => goTo(room === "bench" ? { room } : { room, settingId: null });
  const isOpen = phase === "open" && document !== null;
  return (
    <Announcer>
      <div className="app">
        <TopBar rooms={rooms} current={route.room} onRoom={onRoom}>
          {isOpen ? (
            <>
              <SavingState />
              <StudioMenu />
            </>
          ) : null}
        </TopBar>
        <main id="main" tabIndex={-1} className={`app-main ${route.room}`}>
          {isOpen ? (
            <Suspense fallback={<Coming />}>
              {route.room === "setting" ? (
                <SettingScreen settingId={route.settingId} />
              ) : isPhone ? (
                <PhoneBench />
              ) : (
                <BenchScreen />
              )}
            </Suspense>
          ) : (
            <NotOpen />
          )}
        </main>
        <RoomBar rooms={rooms} current={route.room} onRoom={onRoom} />
        {isOpen ? (
          <>
            <ConflictDialog />
            <UndoDialog />
          </>
        ) : null}
      </div>
    </Announcer>
  );
}

function Coming(): ReactNode {
  return (
    <p className="app-note muted" role="status">
      Opening
    </p>
  );
}

/** Before the studio is there: nothing for a moment, or why it does not come. */
function NotOpen(): ReactNode {
  const { failure } = useStudioView();
  const { studio } = usePageState();
  if (failure === null) {
    return (
      <p className="app-note muted" role="status">
        Opening the studio
      </p>
    );
  }
  return (
    <div className="app-note" role="alert">
      <h1>The studio does not open</h1>
      <p>{failure}</p>
      <p className="muted">Nothing is lost. This page tries again by itself.</p>
      <div className="ui-actions">
        <Button variant="primary" onPress={() => void studio.open()}>
          Try again now
        </Button>
      </div>
    </div>
  );
}
