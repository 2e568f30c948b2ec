"""Foods as this person knows them: the handbook's, with her own figures over them, and her own."""
