"""What an ingredient is: its names, its weight in a cup, and what trimming leaves."""
