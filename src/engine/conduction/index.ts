export { stageFraction, stageWeight, timedHeater, type Heater } from "./heater.ts";
export { type LedgerTotals } from "./ledger.ts";
export { NetworkBuilder, stores, type Network, type Store } from "./network.ts";
export { exchangeRows, stefanBoltzmann } from "./radiating-faces.ts";
export { ThermalSystem } from "./system.ts";
export { TimeStepper, type StepAccuracy, type StepCounts, type StepFailure } from "./time-step.ts";
export { networkOfMesh, type AirZones, type BodyMatter, type MeshNetwork } from "./network-of-mesh.ts";
