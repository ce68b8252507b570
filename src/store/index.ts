export {
  StoreError,
  type ChangesApplied,
  type ChangesRefused,
  type RecordChange,
  type RecordConflict,
  type Revisions,
  type StoredCollection,
  type StoredStudio,
  type StudioStore,
} from "./port.ts";
export { openSqliteStore } from "./sqlite.ts";
