// The circuits as they were written: plain electrical terms, nothing of our file format. Read-only types.

/** "PART.terminal" */
export type TerminalName = string;

export type CaseCondition =
  | { readonly volts: readonly [TerminalName, TerminalName]; readonly above: number; readonly below: number }
  | { readonly input: string; readonly is: string }
  | { readonly logic: string }
  | { readonly not: CaseCondition }
  | { readonly all: readonly CaseCondition[] }
  | { readonly any: readonly CaseCondition[] };

interface InsideCommon {
  readonly what?: string;
  readonly when?: CaseCondition;
}
export type CaseInside = InsideCommon &
  (
    | { readonly type: "resistor" | "driver"; readonly between: readonly [string, string]; readonly ohms: number }
    | {
        readonly type: "diode";
        readonly anode: string;
        readonly cathode: string;
        readonly drop: number;
        readonly ohms?: number;
      }
    | {
        readonly type: "source";
        readonly between: readonly [string, string];
        readonly volts: number;
        readonly ohms: number;
        readonly one_way?: boolean;
      }
  );

interface PartCommon {
  readonly id: string;
  readonly terminals: readonly string[];
  readonly what?: string;
  readonly intended?: string;
}
type JointPart = PartCommon & { readonly kind: "joint" };
type BatteryPart = PartCommon & { readonly kind: "battery"; readonly volts: number; readonly ohms: number };
type FusePart = PartCommon & { readonly kind: "fuse"; readonly amps: number; readonly ohms: number };
type ResistorPart = PartCommon & { readonly kind: "resistor"; readonly ohms: number };
type DiodePart = PartCommon & { readonly kind: "diode"; readonly drop: number; readonly ohms: number };
type LedPart = PartCommon & { readonly kind: "led"; readonly drop: number; readonly ohms: number };
export type SwitchPart = PartCommon & {
  readonly kind: "switch";
  readonly closed: Readonly<Record<string, readonly (readonly [string, string])[]>>;
  readonly contact_ohms: number;
  readonly contact_amps: number;
};
export interface CaseContact {
  readonly common: string;
  readonly open_contact?: string;
  readonly closed_contact?: string;
}
export type RelayPart = PartCommon & {
  readonly kind: "relay";
  readonly coil: readonly [string, string];
  readonly coil_ohms: number;
  readonly pick_up_volts: number;
  readonly drop_out_volts: number;
  readonly operate_ms: number;
  readonly release_ms: number;
  readonly suppression: string;
  readonly contacts: readonly CaseContact[];
  readonly contact_ohms: number;
  readonly contact_amps: number;
  readonly closed_contact_amps: number;
  readonly max_coil_volts?: number;
  readonly coil_parallel_diode?: { readonly anode: string; readonly cathode: string };
  readonly coil_series_diode?: { readonly anode_side: string };
};
export type LoadPart = PartCommon & {
  readonly kind: "load";
  readonly ohms: number;
  readonly on_volts: number;
  readonly dim_volts: number;
  readonly low_ok?: string;
  readonly emf?: { readonly input: string; readonly volts: Readonly<Record<string, number>> };
};
export type DevicePart = PartCommon & {
  readonly kind: "device";
  readonly inside: readonly CaseInside[];
  readonly logic: readonly {
    readonly name: string;
    readonly when: CaseCondition;
    readonly on_delay_ms: number;
    readonly off_delay_ms: number;
  }[];
  readonly driver_max_volts?: number;
};
export type CasePart =
  | JointPart
  | BatteryPart
  | FusePart
  | ResistorPart
  | DiodePart
  | LedPart
  | SwitchPart
  | RelayPart
  | LoadPart
  | DevicePart;

export interface CaseWire {
  readonly id: string;
  readonly from: TerminalName;
  readonly to: TerminalName;
  readonly mm2: number;
  readonly metres: number;
  readonly ohms: number;
  readonly rated_amps: number;
  readonly unfused_by_practice?: string;
}

export interface CaseStep {
  readonly step: number;
  readonly set: Readonly<Record<string, string>>;
  readonly inputs_now: Readonly<Record<string, string>>;
  readonly states: Readonly<Record<string, string>>;
  readonly oscillates?: boolean;
  readonly volts?: Readonly<Record<string, number>>;
  readonly amps?: Readonly<Record<string, number>>;
}

export interface CaseFault {
  readonly code: string;
  readonly severity: "serious" | "moderate" | "minor";
  readonly at: readonly string[];
  readonly shown_in_steps: readonly number[];
  readonly path: readonly TerminalName[];
}

export interface Case {
  readonly id: string;
  readonly title: string;
  readonly variant: "fault" | "repaired" | "innocent";
  readonly twin: string | null;
  readonly symptom: string;
  readonly changed_from_fault: string | null;
  readonly parts: readonly CasePart[];
  readonly wires: readonly CaseWire[];
  readonly inputs: Readonly<Record<string, { readonly values: readonly string[]; readonly start: string }>>;
  readonly impossible_together: readonly Readonly<Record<string, string>>[];
  readonly steps: readonly CaseStep[];
  readonly expected: {
    readonly verdict: "fault" | "clean";
    readonly faults: readonly CaseFault[];
    readonly notes_allowed: readonly { readonly code: string }[];
  };
}

export interface CaseFile {
  readonly cases: readonly Case[];
}
