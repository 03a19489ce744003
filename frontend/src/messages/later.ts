/** The words of the screens that the first questions do not need. */
import later from "@messages/dock_later.ftl?raw";
import "./both";
import { catalogue } from ".";

catalogue.add(later);
