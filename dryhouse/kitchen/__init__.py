"""The kitchen: what a person does, one verb an act, and the records it is done with."""
