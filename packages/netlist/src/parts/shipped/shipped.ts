import type { ModuleDefinitionText } from "../module-definition.ts";
import { injectionController } from "./injection-controller.ts";
import { powerModule } from "./power-module.ts";

/** Definitions that come with the tool; their names begin with @. A loom gets its own copy of one, to be changed. */
export const shippedDefinitions: readonly ModuleDefinitionText[] = [injectionController, powerModule];
