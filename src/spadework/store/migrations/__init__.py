"""Steps from one schema of the book to the next. A step taken is never edited and never taken back."""
