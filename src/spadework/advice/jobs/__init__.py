"""One module per kind of job: each a pure function from what stands to the jobs worth doing."""
