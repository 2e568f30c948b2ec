"""What shows a batch across rooms: its card and the list of batches."""
