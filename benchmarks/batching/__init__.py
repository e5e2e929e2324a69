"""The load engine on published instances of parallel batching with incompatible families."""
