"""Laws of nature for the kitchen. They explain and warn; they never yield a time or a pressure."""
