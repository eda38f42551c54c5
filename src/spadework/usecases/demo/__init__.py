"""The demo garden's story: an invented place, its people, and two seasons of its book."""
