"""What is printed: layout in Typst, facts from the middle storey as data."""
