export { ChartTable, type TableData } from "./chart-table.tsx";
export { ConeLine, type ConeLineProps } from "./cone-line.tsx";
export { FiringCurve, type FiringCurveProps, type LogPoint } from "./firing-curve.tsx";
export { MassByHeight, massByHeight, type MassByHeightProps } from "./mass-by-height.tsx";
export { WhatItSees, type WhatItSeesProps } from "./what-it-sees.tsx";
