"""The same use cases as JSON: what other programs of the garden's people ask and write."""
