import { mount } from "svelte";
import App from "./App.svelte";
import "./app.css";
import { theme } from "./state/theme.svelte";

theme.start();
mount(App, { target: document.getElementById("app")! });
