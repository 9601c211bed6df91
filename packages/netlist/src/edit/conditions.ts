import type { z } from "zod";
import type { conditionSchema } from "../parts/condition.ts";
import type { ModuleDefinitionText } from "../parts/module-definition.ts";

type ConditionText = z.infer<typeof conditionSchema>;
type AtomsText = Omit<ConditionText[number], "not">;

/** Every condition of a definition through `change`. Nothing to change gives the same object. */
export function withConditions(
  definition: ModuleDefinitionText,
  change: (condition: ConditionText) => ConditionText,
): ModuleDefinitionText {
  const { inside, states, logic } = definition;
  const on = logic?.on && Object.fromEntries(Object.entries(logic.on).map(([pin, c]) => [pin, change(c)]));
  return {
    ...definition,
    ...(inside && { inside: inside.map((e) => (e.when === undefined ? e : { ...e, when: change(e.when) })) }),
    ...(states && { states: states.map((s) => ({ ...s, when: change(s.when) })) }),
    ...(logic && {
      logic: { ...logic, ...(logic.awake && { awake: change(logic.awake) }), ...(on && { on }) },
    }),
  };
}

/**
 * A condition without what asks for something that is gone. It can never be true again: an alternative that needs it
 * goes, and so does what must not be.
 */
export function withoutAsking(condition: ConditionText, asks: (atoms: AtomsText) => boolean): ConditionText {
  return condition.flatMap(({ not, ...atoms }) => {
    if (asks(atoms)) return [];
    if (not === undefined) return [atoms];
    const left = [not].flat().filter((set) => !asks(set));
    if (left.length === 0) return [atoms];
    return [{ ...atoms, not: Array.isArray(not) ? left : not }];
  });
}

/** Whether anything in a definition asks. */
export function anyAsks(definition: ModuleDefinitionText, asks: (atoms: AtomsText) => boolean): boolean {
  let found = false;
  withConditions(definition, (condition) => {
    found ||= condition.some(({ not, ...atoms }) => asks(atoms) || [not ?? []].flat().some(asks));
    return condition;
  });
  return found;
}
