"""The face in the garden: pages and API on one's own machine, phone first."""
