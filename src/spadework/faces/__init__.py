"""What a person touches: no science, no SQL, no arithmetic on weather."""
