import type { Ink, Picture } from "@loomproof/drawing";

interface Props {
  readonly picture: Picture;
  /** Px of the page for one px of the picture. */
  readonly scale: number;
}

/** A symbol by itself. What it is stands beside it in words. */
export function InkSvg({ picture: { width, height, ink }, scale }: Props) {
  return (
    <svg viewBox={`0 0 ${width} ${height}`} width={width * scale} height={height * scale} aria-hidden="true">
      <InkShape ink={ink} />
    </svg>
  );
}

function InkShape({ ink }: { readonly ink: Ink }) {
  switch (ink.kind) {
    case "path": {
      const cap = ink.roundCap ? "round" : undefined;
      const join = ink.roundJoin ? "round" : undefined;
      return (
        <path
          d={ink.d}
          fill={ink.fill ?? "none"}
          stroke={ink.stroke}
          strokeWidth={ink.width}
          strokeDasharray={ink.dash?.join(" ")}
          strokeLinecap={cap}
          strokeLinejoin={join}
        />
      );
    }
    case "text":
      return (
        <text
          x={ink.x}
          y={ink.y}
          fontSize={ink.size}
          textAnchor={ink.anchor}
          fill={ink.fill}
          transform={ink.upright ? `rotate(-90 ${ink.x} ${ink.y})` : undefined}
        >
          {ink.words.map((w) => (
            <tspan key={w.text} fontWeight={w.weight}>
              {w.text}
            </tspan>
          ))}
        </text>
      );
    case "group":
      return (
        <g transform={`translate(${ink.x} ${ink.y}) scale(${ink.scale})`}>
          {ink.ink.map((one, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: strokes of a symbol never change places.
            <InkShape key={i} ink={one} />
          ))}
        </g>
      );
    // Symbols have no other ink.
    default:
      return null;
  }
}
