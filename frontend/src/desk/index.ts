/** What the app's router takes in when somebody opens /desk or /how. */
import "../messages/both";
import "./desk.css";

export { default } from "./Desk.svelte";
