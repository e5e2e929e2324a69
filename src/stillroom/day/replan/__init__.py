"""Planning again while the day is under way: what is done stays done, what runs stays put."""
