"""What pages show, as plain values: the work's answers sorted for the eye."""
