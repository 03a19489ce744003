# The receiver's screens up to the first questions; those of the later ones are in dock_later.ftl.

## Cautions at the step where they matter (a line each)
dock-caution-read = read
dock-caution-close = close
dock-caution-ending = Follow your site's rules and local codes. If unsure, ask your supervisor or a qualified person. This does not replace training.
dock-caution-dock = Take care: on the dock
dock-caution-dock-points =
    Ramps are slippery with frost and drip. Keep out of the forklift and tail-lift area until the driver signals. No phone while vehicles are moving.
    Do not climb on a stack or pull from the middle of it: icy film slides.
    Dry ice or nitrogen cooling: let the space air out and be cleared before anyone goes in. Get out if you feel breathless or dizzy or have a headache. Dry ice burns the skin: wear insulated gloves, and never seal it in.
    Cartons weigh 10 to 20 kg: test the weight, split the load, or use two people or a trolley.
