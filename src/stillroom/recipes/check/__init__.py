"""A recipe held against the published processes and rules: tested, unconfirmed or barred."""
