"""Laws: pure functions on arrays, each with its source. Imports numpy and scipy only."""
