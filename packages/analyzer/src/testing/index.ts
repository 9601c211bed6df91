export { plainSearch, type QuietState, type SearchSeen, searchByScopes } from "./every-state.ts";
