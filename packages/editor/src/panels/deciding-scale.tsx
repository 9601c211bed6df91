import type { HoldSeen } from "@loomproof/analyzer";

const WIDTH = 300;
const volts = (v: number) => `${v.toFixed(Math.abs(v) < 10 ? 2 : 1)}\u00a0V`;

/** The numbers that decide a hold: where it surely lets go, where it surely stays, and where the coil is. */
export function DecidingScale({ coil }: { readonly coil: HoldSeen["coil"][number] }) {
  const most = Math.max(12.6, coil.volts);
  const x = (v: number) => (Math.min(v, most) / most) * WIDTH;
  const says = `Coil of ${coil.id}: ${volts(coil.volts)}; lets go for certain at ${volts(coil.releaseLeast)}, stays in for certain above ${volts(coil.releaseMost)}`;
  return (
    <figure className="scale">
      <svg viewBox={`0 0 ${WIDTH} 46`} role="img" aria-label={says}>
        <rect className="lets-go" x="0" y="20" width={x(coil.releaseLeast)} height="8" />
        <rect
          className="depends"
          x={x(coil.releaseLeast)}
          y="20"
          width={x(coil.releaseMost) - x(coil.releaseLeast)}
          height="8"
        />
        <rect className="stays" x={x(coil.releaseMost)} y="20" width={WIDTH - x(coil.releaseMost)} height="8" />
        <path className="pointer" d={`M${x(coil.volts)} 19l-5-7h10z`} />
        <text className="value" x={Math.max(18, Math.min(WIDTH - 24, x(coil.volts)))} y="9" textAnchor="middle">
          {volts(coil.volts)}
        </text>
        <text x="0" y="42">
          lets go
        </text>
        <text x={WIDTH} y="42" textAnchor="end">
          stays in
        </text>
      </svg>
      <figcaption>
        Coil of {coil.id}: lets go for certain at {volts(coil.releaseLeast)}, stays in for certain above{" "}
        {volts(coil.releaseMost)}.
      </figcaption>
    </figure>
  );
}
