"""The pages: each handler parses, calls one function and shows the answer."""
