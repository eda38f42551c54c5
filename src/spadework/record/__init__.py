"""How well past answers came true, scored. Pure: arrays in, scores out."""
