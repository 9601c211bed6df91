export { type EditPick, RANDOM_EDITS, type RandomEdit, randomEdit } from "./random-edits.ts";
