"""Shapes of answers and questions, with what each key means and its unit."""
