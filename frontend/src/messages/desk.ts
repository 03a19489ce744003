/** The words of the desk. Its files say them through this door, so that they are there before any of them is said. */
import desk from "@messages/desk.ftl?raw";
import "./both";
import { catalogue } from ".";

catalogue.add(desk);
export { t } from ".";
