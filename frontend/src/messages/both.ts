/** The words that the later screens of the dock and the desk share. */
import both from "@messages/dock_desk.ftl?raw";
import { catalogue } from ".";

catalogue.add(both);
