"""The household's pages and the JSON interface: a face, like the command line."""
