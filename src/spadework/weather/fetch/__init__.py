"""Weather asked of a service: only for the garden's coordinates, only when a person or a scheduler asks."""
