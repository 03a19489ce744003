/** Safety cautions at the step where they matter (check-values section 11); every one ends alike. */
export type CautionId =
  "dock" | "opening" | "probing" | "label" | "sample" | "refused" | "hazard" | "deglazing" | "drilling" | "thawing" | "photo" | "freezer";

export const ENDING = "Follow your site's rules and local code. Ask your supervisor or a qualified person. This does not replace training.";

export const CAUTIONS: Record<CautionId, { title: string; points: string[] }> = {
  dock: {
    title: "On the dock",
    points: [
      "Ramps are slippery with frost and drip. Stay out of the forklift and tail-lift area until the driver signals. No phone while vehicles move.",
      "Do not climb or pull from the middle of a stack: glazed film slides.",
      "Dry ice or nitrogen cooling: let the space air and be cleared before anyone goes in. Leave if breathless, dizzy or with a headache. Dry ice burns the skin: insulated gloves, and never seal it in.",
      "Cartons weigh 10 to 20 kg: test the weight, split loads, or take two people or a trolley.",
    ],
  },
  opening: {
    title: "Opening a carton",
    points: [
      "Prawns are crustaceans, a major allergen. Drip and dust can affect people too: keep apart, change gloves, clean the bench.",
      "Strapping springs back: cut away from your body with a guarded cutter. Collect staples.",
      "Shell and tail spines pierce gloves. Clean a wound at once and report redness or swelling.",
      "Bare wet skin freezes to metal and glaze. Wear insulated gloves.",
    ],
  },
  probing: {
    title: "Probing",
    points: [
      "Clean and sanitise the probe before, after and between lots. Never through a dirty liner.",
      "Between packs first. Core only if doubt remains: drill with a hand drill and a clamp, never a knife point. Discard or reseal a probed pack.",
    ],
  },
  drilling: {
    title: "Drilling a block",
    points: [
      "Hand drill and clamp, never a knife point: hold the block in a cloth, drill away from you. Cut glove and eye protection.",
      "Clean and sanitise drill and probe before and after. Never through a dirty liner. Discard or reseal a probed pack.",
    ],
  },
  deglazing: {
    title: "Cold, wet and an allergen",
    points: [
      "Prawns are crustaceans, a major allergen. Drip and spray can affect people too: keep other food away, change gloves, clean bench and sink.",
      "Some prawns carry sulphites, which can set off asthma-like reactions. Read the label first and tell whoever handles them.",
      "Wet skin freezes to glaze and metal: insulated, waterproof gloves, short spells. Shell and tail spines pierce gloves; clean a wound at once.",
      "Wipe up water at once: a wet floor freezes near the door.",
    ],
  },
  thawing: {
    title: "Thawing and smelling",
    points: [
      "Do not taste raw prawns. Drip is an allergen and spoils other food: keep it apart, change gloves, clean bench and sink.",
      "Some prawns carry sulphites, which can set off asthma-like reactions. Read the label before you smell closely.",
      "A thawed sample is not frozen again and not served.",
    ],
  },
  label: {
    title: "Sulphites",
    points: [
      "Sulphites can set off asthma-like reactions. If the label declares them, the kitchen must know.",
      "Sulphite powder gives off a choking gas with acid or water: air the room and keep it from acids.",
    ],
  },
  sample: {
    title: "Smelling and tasting",
    points: ["Do not taste raw prawns. Smell properly only after thaw; cook a sample for flavour."],
  },
  refused: {
    title: "Refused and held goods",
    points: ["Mark them, keep them apart and frozen, and stop their use. Throw nothing away until the supplier or the authority agrees."],
  },
  hazard: {
    title: "A possible hazard",
    points: [
      "Glass, metal, a chemical smell or thaw of unknown length: hold everything, tell the manager, follow the recall rules. A sample does not clear it.",
    ],
  },
  photo: { title: "Photos", points: ["No faces, number plates or other people's papers, unless your site allows it."] },
  freezer: {
    title: "In the freezer",
    points: ["Gloves, jacket, dry shoes, short stays. Never alone without a check. Know the inside release and the alarm."],
  },
};
