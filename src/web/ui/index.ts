import "@fontsource/atkinson-hyperlegible-next/latin-400.css";
import "@fontsource/atkinson-hyperlegible-next/latin-600.css";
import "@fontsource/besley/latin-600.css";
import "./tokens.css";
import "./base.css";
import "./controls.css";

export { Button, IconButton, type ButtonProps, type IconButtonProps } from "./button.tsx";
export { Card, FindingCard, type CardProps, type FindingCardProps } from "./card.tsx";
export { Checkbox, type CheckboxProps } from "./checkbox.tsx";
export { classes } from "./classes.ts";
export { Dialog, type DialogProps } from "./dialog.tsx";
export { FindingIcon, FindingMark, type FindingLevel } from "./finding-icon.tsx";
export {
  heatFill,
  heatHatch,
  HeatKey,
  heatLabel,
  HeatTriangle,
  Patterns,
  usePatternPrefix,
  type PatternsProps,
} from "./heat.tsx";
export { Icon, Mark, type IconName } from "./icons.tsx";
export { Announcer, LiveRegion, useAnnounce, type Announce } from "./live-region.tsx";
export { Menu, type MenuEntry, type MenuProps } from "./menu.tsx";
export { NumberStepper, type NumberStepperProps } from "./number-stepper.tsx";
export { ProgressBar, type ProgressBarProps } from "./progress-bar.tsx";
export { SegmentedChoice, type SegmentedChoiceProps } from "./segmented-choice.tsx";
export { Select, type SelectOption, type SelectProps } from "./select.tsx";
export { Kbd, Tag } from "./tag.tsx";
export { TextField, type TextFieldProps } from "./text-field.tsx";
export { applyTheme, type Theme } from "./theme.ts";
export { BarState, RoomBar, ScreenHead, TopBar, type Room, type TopBarProps } from "./top-bar.tsx";
export { useSize, type Size } from "./use-size.ts";
