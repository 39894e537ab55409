import "./style/base.css";
import { render } from "preact";
import { App } from "./shell/app";
import { take_up_waiting } from "./state";

const host = document.getElementById("app");
if (host !== null) render(<App />, host);
void take_up_waiting();
