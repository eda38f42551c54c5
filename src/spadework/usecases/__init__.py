"""One module for each thing a person does; the only place that joins core and store."""
