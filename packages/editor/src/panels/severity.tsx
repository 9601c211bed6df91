import type { Severity } from "@loomproof/analyzer";

// Shape first, colour second: octagon, rounded square, triangle, circle.
const SHAPES: { readonly [S in Severity]: string } = {
  danger: "M6 1h6l5 5v6l-5 5H6l-5-5V6z",
  fault: "M4 1.5h10a2.5 2.5 0 0 1 2.5 2.5v10a2.5 2.5 0 0 1-2.5 2.5H4A2.5 2.5 0 0 1 1.5 14V4A2.5 2.5 0 0 1 4 1.5z",
  caution: "M9 1.5 17 16H1z",
  note: "M9 1.5a7.5 7.5 0 1 0 0 15a7.5 7.5 0 1 0 0-15z",
};
const SIGNS: { readonly [S in Severity]: string } = {
  danger: "M9 4.5v5.5M9 13v.6",
  fault: "M5.5 5.5l7 7M12.5 5.5l-7 7",
  caution: "M9 6.5v4.5M9 13.4v.4",
  note: "M9 9v.2",
};

export function SeverityShape({ severity, size = 18 }: { readonly severity: Severity; readonly size?: number }) {
  return (
    <svg
      className={`shape ${severity}`}
      width={size}
      height={size}
      viewBox="0 0 18 18"
      role="img"
      aria-label={severity}
    >
      <path className="body" d={SHAPES[severity]} />
      <path className="sign" d={SIGNS[severity]} />
    </svg>
  );
}
