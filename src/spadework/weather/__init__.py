"""Weather: daily series, readers for the files people have, and the years an answer is run through."""
