"""Reading a line as a person says it: words to marks, marks to clauses, clauses to acts."""
