import "@fontsource-variable/atkinson-hyperlegible-next/wght.css";
import "./style/tokens.css";
import "./style/page.css";
import "./style/margin.css";
import "./style/tray.css";
import "./style/story.css";
import "./style/first.css";
import "./style/hand.css";
import "./style/kept.css";
import "./style/fields.css";
import "./style/shelf.css";
import "./style/particulars.css";
import "./style/outline.css";
import "./style/answers.css";
import "./style/behaviour.css";
import "./style/wishes.css";
import "./style/strip.css";
import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { App } from "./app.tsx";

const root = document.getElementById("root");
if (root === null) throw new Error("the page has no root element");
createRoot(root).render(
  <StrictMode>
    <App />
  </StrictMode>,
);
