# The receiver's screens behind the first questions (frontend/src/walk/later.ts).

## Cautions at the step where they matter (a line each)
dock-caution-opening = Take care: opening a carton
dock-caution-opening-points =
    Prawns are crustaceans, a major allergen. Drip and dust can affect people too: keep them apart, change gloves, clean the bench.
    Strapping springs back: cut away from your body with a guarded cutter. Collect the staples.
    Shell and tail spines pierce gloves. Clean a wound at once and report redness or swelling.
    Bare wet skin freezes to metal and glaze. Wear insulated gloves.
dock-caution-probing = Take care: probing
dock-caution-probing-points =
    Clean and sanitise the probe before use, after use and between lots. Never push it through a dirty liner.
    Probe between packs first. Probe the core only if there is still doubt: drill with a hand drill and a clamp, never with the point of a knife. Discard or reseal a probed pack.
dock-caution-drilling = Take care: drilling a block
dock-caution-drilling-points =
    Use a hand drill and a clamp, never the point of a knife: hold the block in a cloth and drill away from you. Wear a cut glove and eye protection.
    Clean and sanitise the drill and the probe before and after. Never go through a dirty liner. Discard or reseal a probed pack.
dock-caution-deglazing = Take care: cold, wet and an allergen
dock-caution-deglazing-points =
    Prawns are crustaceans, a major allergen. Drip and spray can affect people too: keep other food away, change gloves, clean the bench and sink.
    Some prawns carry sulphites, which can set off asthma-like reactions. Read the label first and tell whoever handles them.
    Wet skin freezes to glaze and metal: wear insulated, waterproof gloves and keep spells short. Shell and tail spines pierce gloves; clean a wound at once.
    Wipe up water at once: a wet floor freezes near the door.
dock-caution-thawing = Take care: thawing and smelling
dock-caution-thawing-points =
    Do not taste raw prawns. Drip is an allergen and spoils other food: keep it apart, change gloves, clean the bench and sink.
    Some prawns carry sulphites, which can set off asthma-like reactions. Read the label before you smell them close up.
    Do not refreeze or serve a thawed sample.
dock-caution-label = Take care: sulphites
dock-caution-label-points =
    Sulphites can set off asthma-like reactions. If the label declares them, the kitchen must know.
    Sulphite powder gives off a choking gas with acid or water: air the room and keep it away from acids.
dock-caution-sample = Take care: smelling and tasting
dock-caution-sample-points =
    Do not taste raw prawns. You can only smell them properly once thawed; cook a sample to judge the flavour.
dock-caution-refused = Take care: refused and held goods
dock-caution-refused-points =
    Mark them, keep them apart and frozen, and stop their use. Throw nothing away until the supplier or the authority agrees.
dock-caution-hazard = Take care: a possible hazard
dock-caution-hazard-points =
    Glass, metal, a chemical smell, or thawing for an unknown time: hold everything, tell the manager and follow the recall rules. A sample does not clear it.
dock-caution-photo = Take care: photos
dock-caution-photo-points =
    No faces, number plates or other people's papers, unless your site allows it.
dock-caution-freezer = Take care: in the freezer
dock-caution-freezer-points =
    Gloves, jacket, dry shoes, short stays. Never alone without someone checking on you. Know the inside release and the alarm.
