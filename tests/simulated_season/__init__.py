"""A scripted grower through real seasons: invented gardens, losses that are not the program's own."""
