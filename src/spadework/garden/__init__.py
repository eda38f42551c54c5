"""The model of the garden: site, beds, plantings. Pure and immutable."""
