"""What the laws of heat say of this kitchen: explained and foretold, never approved."""
