"""What the garden remembers."""
