import type { Span } from "@loomproof/netlist";

/** Which of the admissible times are taken: all in the middle, all at the short end, all at the long end. */
export const CHOICES = ["usual", "fastest", "slowest"] as const;
export type Choice = (typeof CHOICES)[number];

/** Thresholds are taken in the middle of their spread. */
export const middle = ({ least, most }: Span): number => (least + most) / 2;

/** A time out of its spread. The usual one is the middle by ratio: spreads of times are wide. */
export function timeOf({ least, most }: Span, choice: Choice): number {
  switch (choice) {
    case "fastest":
      return least;
    case "slowest":
      return most;
    case "usual":
      return least > 0 ? Math.sqrt(least * most) : middle({ least, most });
    default:
      return choice satisfies never;
  }
}

/** Moves a time of the house's own into a spread: to the point chosen where the loom gives it, else no further than in. */
export const inside =
  (span: Span, choice: Choice, isGiven: boolean) =>
  (seconds: number): number =>
    isGiven || choice !== "usual" ? timeOf(span, choice) : Math.min(span.most, Math.max(span.least, seconds));
