export {
  type Explored,
  exploreLoom,
  plainSearch,
  type QuietState,
  type SearchSeen,
  searchByScopes,
} from "./every-state.ts";
export { type Points, pointsOf, type Straight } from "./points.ts";
