/** The words of claims, and of what the supplier is sent. */
import claims from "@messages/desk_claims.ftl?raw";
import { catalogue } from ".";

catalogue.add(claims);
export { t } from ".";
