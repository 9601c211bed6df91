import { z } from "zod";
import { defineFamily } from "./family.ts";
import { COMMON_PRACTICE, choice, FROM_MEMORY, shaped, span } from "./field.ts";
import { listText, plainText } from "./text-form.ts";

const partId = z.string().min(1).max(60);

export const engine = defineFamily({
  title: "Engine",
  summary:
    "The engine, as far as the loom feels it: what cranks it, what it needs to keep running, how long it spins down.",
  kinds: ["engine"],
  letters: () => "ENG",
  words: ["motor of the vehicle", "petrol", "diesel", "crank", "running"],
  fields: {
    crankedBy: shaped(partId, (raw) => raw, {
      form: plainText,
      says: "the starter that turns it",
      standard: "none: it starts by the will of the world",
    }),
    byHand: choice(["no", "yes"], "no", {
      says: "whether it can also be started with a handle or by towing, although it has a starter",
      source: COMMON_PRACTICE,
    }),
    needs: shaped(z.array(partId).max(20), (raw) => raw ?? [], {
      form: listText,
      says: "parts that must be on for it to run; when one is not, it stops by itself",
      standard: "none: it runs until the world stops it",
    }),
    spinDown: span(
      "seconds",
      { least: 0.5, most: 3 },
      {
        says: "time from the last firing until it stands still",
        standard: "0.5 s to 3 s",
        source: FROM_MEMORY,
      },
    ),
  },
  harm: () => "none",
  // It is no electrical part: its metal is a ground point.
  terminals: () => [],
});
