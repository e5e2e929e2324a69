"""A canning day: orders to loads, loads to a timetable, and the lists that go with them."""
