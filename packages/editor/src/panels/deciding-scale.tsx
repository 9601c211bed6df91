import type { HoldSeen } from "@loomproof/analyzer";
import { volts } from "./words.ts";

const WIDTH = 304;
/** What a battery at rest gives; the bar ends there, or further right where the coil gets more. */
const BATTERY = 12.6;
const HALF_VALUE = 44;

/** The numbers that decide a hold: where it surely lets go, where it surely stays, and where the coil is. */
export function DecidingScale({ coil }: { readonly coil: HoldSeen["coil"][number] }) {
  const most = Math.max(BATTERY, coil.volts);
  const x = (v: number) => (Math.min(v, most) / most) * WIDTH;
  const [least, surely, at] = [x(coil.releaseLeast), x(coil.releaseMost), x(coil.volts)];
  const says = `Coil of ${coil.id}: ${volts(coil.volts)}; lets go for certain at ${volts(coil.releaseLeast)}, stays in for certain above ${volts(coil.releaseMost)}`;
  return (
    <figure className="scale">
      <svg viewBox={`0 0 ${WIDTH} 50`} role="img" aria-label={says}>
        <rect className="lets-go" x="0" y="23" width={least} height="11" />
        <rect className="depends" x={least} y="23" width={surely - least} height="11" />
        <rect className="stays" x={surely} y="23" width={WIDTH - surely} height="11" />
        <path className="ticks" d={ticks(least, surely)} />
        <path className="pointer" d={`M${at} 35V20M${at} 22l-4.5-6h9z`} />
        <text className="value" x={Math.max(HALF_VALUE, Math.min(WIDTH - HALF_VALUE, at))} y="10" textAnchor="middle">
          {coil.id} coil {volts(coil.volts)}
        </text>
        <text x="0" y="46">
          lets go
        </text>
        <text x={WIDTH} y="46" textAnchor="end">
          stays in
        </text>
      </svg>
      <figcaption>
        It lets go for certain at {volts(coil.releaseLeast)}, and stays in for certain above {volts(coil.releaseMost)}.
      </figcaption>
    </figure>
  );
}

/** Cross ticks over the stretch where it depends, so that it reads without colour. */
function ticks(from: number, to: number): string {
  let d = "";
  for (let x = from + 5; x < to - 1; x += 6) d += `M${x.toFixed(1)} 23v11`;
  return d;
}
