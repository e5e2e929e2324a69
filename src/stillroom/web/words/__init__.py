"""Words and numbers of the pages: catalogues, and how figures are written."""
