"""Windows of jobs as a calendar other programs can read (RFC 5545)."""
