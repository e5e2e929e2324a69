"""What the household writes: documents in SQLite, each change kept and to be undone."""
